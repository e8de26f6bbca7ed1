"""What must hold of every gas line: wider is never worse, deeper never better."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.bench.rig import rig_of
from ozonewright.questions.gas_line.model import solved
from unit.rigs import changed, design, story, without

SLACK = 1.0 + 1e-7
FEW = settings(max_examples=40, deadline=None)

bores = st.floats(0.8, 12.0).map(lambda x: round(x, 3))
lengths = st.floats(1.0, 500.0).map(lambda x: round(x, 1))
depths = st.floats(0.5, 150.0).map(lambda x: round(x, 2))
flows = st.floats(0.2, 12.0).map(lambda x: round(x, 3))
pressures = st.floats(3.0, 60.0).map(lambda x: round(x, 2))


@st.composite
def lines(draw: st.DrawFn) -> dict[str, Any]:
    """Return the printed rig with other figures."""
    table = changed(
        design(), "pump", free_flow=f"{draw(flows)} L/min", shut_off=f"{draw(pressures)} kPa"
    )
    table = changed(table, "line", bore=f"{draw(bores)} mm", length=f"{draw(lengths)} cm")
    return changed(table, "bottle", depth=f"{draw(depths)} cm")


def flow(table: dict[str, Any]) -> float:
    found = solved(rig_of(table))
    assert found.solution.imbalance <= 1e-10
    return found.delivered


@FEW
@given(lines(), bores, bores)
def test_more_bore_never_lowers_the_flow(table: dict[str, Any], one: float, other: float) -> None:
    thin, wide = (changed(table, "line", bore=f"{bore} mm") for bore in sorted((one, other)))
    assert flow(thin) <= flow(wide) * SLACK


@FEW
@given(lines(), depths, depths)
def test_more_depth_never_raises_the_flow(table: dict[str, Any], one: float, other: float) -> None:
    flat, deep = (changed(table, "bottle", depth=f"{depth} cm") for depth in sorted((one, other)))
    assert flow(deep) <= flow(flat) * SLACK


@FEW
@given(lines(), lengths, lengths)
def test_more_length_never_raises_the_flow(table: dict[str, Any], one: float, other: float) -> None:
    short, long = (changed(table, "line", length=f"{cm} cm") for cm in sorted((one, other)))
    assert flow(long) <= flow(short) * SLACK


@FEW
@given(flows, pressures, bores, lengths, depths)
def test_joining_two_outlets_never_lowers_the_flow(
    free: float, shut_off: float, bore: float, length: float, depth: float
) -> None:
    """With a check valve at each, a falling curve, and the same line."""
    table = changed(story(), "pump", free_flow=f"{free} L/min", shut_off=f"{shut_off} kPa")
    table = changed(table, "line", bore=f"{bore} mm", length=f"{length} cm")
    table = changed(table, "bottle", depth=f"{depth} cm")
    single = changed(without(table, "leg 2"), "join", after="leg 1")
    assert flow(single) <= flow(table) * (1.0 + 1e-6)


@FEW
@given(lines())
def test_pressures_fall_along_the_line_and_add_up(table: dict[str, Any]) -> None:
    found = solved(rig_of(table))
    inlets = [point.inlet for point in found.points]
    assert all(a >= b - 1e-6 for a, b in pairwise(inlets))
    supply = found.supplies["pump"].outlet(found.flows[0], found.room.gas)
    lost = sum(point.inlet - point.outlet for point in found.points)
    assert abs(supply - found.room.pressure - lost) < 1.0


@FEW
@given(lines())
def test_no_flow_if_and_only_if_the_liquid_is_too_deep(table: dict[str, Any]) -> None:
    rig = rig_of(table)
    pump, bottle = rig.parts[0], rig.parts[-1]
    left = pump.quantities["shut_off"].value - 1000.0 - 2900.0
    # 998.25 kg/m3 at 20 °C
    needed = 998.25 * 9.80665 * bottle.quantities["depth"].value
    if abs(left - needed) > 5.0:
        assert (flow(table) > 0.0) == (left > needed)
