"""What must hold of every absorber: more depth, smaller bubbles never lower uptake."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.bench.absorber import uptake
from ozonewright.bench.rig import load_rig
from ozonewright.physics.liquid.course import course_of_train
from ozonewright.physics.liquid.in_a_row import in_series
from ozonewright.physics.liquid.swarm import Column
from ozonewright.questions.absorber.draws import Drawn
from ozonewright.questions.absorber.model import stream
from ozonewright.questions.absorber.passing import Train, pass_through
from ozonewright.questions.absorber.train import train
from ozonewright.records.absorber import Asked
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind, size
from unit.test_absorber import rig, single

SLACK = 1e-9
FEW = settings(max_examples=5, deadline=None)
MANY = settings(max_examples=60, deadline=None)
depths = st.floats(3.0, 60.0).map(lambda x: round(x, 2))
bubbles = st.floats(0.3, 12.0).map(lambda x: round(x, 2))
flows = st.floats(0.1, 1.5).map(lambda x: round(x, 3))
trains = st.sampled_from([single, rig])
liquids = st.sampled_from(
    [
        {},
        {"potassium_iodide": "4.0 g"},
        {"potassium_iodide": "0.02 g"},
        {"sulfuric_acid": "2.0 mol/L"},
        {"liquid": "methanol", "bath": "-40 °C"},
        {"liquid": "ethyl acetate", "bath": "-20 °C", "substrate": "0.01 mol/L",
         "rate_constant": "100 L/mol/s"},
        {"liquid": "dichloromethane", "bath": "-78 °C", "substrate": "0.10 mol/L",
         "rate_constant": "3e5 L/mol/s"},
        {"substrate": "0.05 mol/L", "rate_constant": "0.01 L/mol/s"},
    ]
)  # fmt: skip


def taken(table: dict[str, Any], flow: float, bubble: float) -> float:
    """Return the share taken up at the best estimates, without draws."""
    asked = Asked(
        Measured(12.5 * size(Kind.AMOUNT_RATE, "mmol/h"), 0.0, "output", Kind.AMOUNT_RATE),
        Measured(flow * size(Kind.NORMAL_FLOW, "NL/min"), 0.0, "flow", Kind.NORMAL_FLOW),
        True,
        Measured(bubble * 1e-3, 0.0, "bubble", Kind.LENGTH),
    )
    alone = Train(train(load_rig(table)), asked, 101325.0, Drawn(draws=0))
    gas = stream(asked, alone.drawn)
    left = in_series(lefts=[one.left for one in pass_through(alone.columns(gas), gas)])
    found = 1.0 - float(np.asarray(left)[0])
    assert 0.0 <= found <= 1.0
    return found


def wide(fields: dict[str, Any], made: Any, **more: str) -> dict[str, Any]:
    table: dict[str, Any] = made(bore="40 mm", volume="2 L", **{**fields, **more})
    return table


@MANY
@given(trains, liquids, flows, bubbles, depths, depths)
def test_more_depth_never_lowers_uptake(
    made: Any, fields: dict[str, Any], flow: float, bubble: float, one: float, other: float
) -> None:
    flat, deep = (
        taken(wide(fields, made, depth=f"{cm} cm"), flow, bubble) for cm in sorted((one, other))
    )
    assert flat <= deep + SLACK


@MANY
@given(trains, liquids, flows, bubbles, bubbles)
def test_smaller_bubbles_never_lower_uptake(
    made: Any, fields: dict[str, Any], flow: float, one: float, other: float
) -> None:
    fine, coarse = (taken(wide(fields, made), flow, mm) for mm in sorted((one, other)))
    assert coarse <= fine + SLACK


@MANY
@given(liquids, flows, bubbles)
def test_another_bottle_never_lowers_uptake(
    fields: dict[str, Any], flow: float, bubble: float
) -> None:
    one, two = (taken(wide(fields, made), flow, bubble) for made in (single, rig))
    assert one <= two + SLACK


@FEW
@given(trains, liquids, flows, bubbles)
def test_the_answer_of_the_bench_is_a_share_within_its_interval(
    made: Any, fields: dict[str, Any], flow: float, bubble: float
) -> None:
    found = uptake(
        wide(fields, made),
        {"output": "0.600 g/h", "flow": f"{flow} NL/min", "bubble": f"{bubble:.2f} mm ± 1 %"},
    ).efficiency
    assert isinstance(found, Estimate)
    assert 0.0 <= found.interval[0] <= found.interval[1] <= 1.0
    assert 0.0 <= found.value <= 1.0


PLAIN = Column(
    bubble=3e-3, rise=0.25, depth=0.15, volume=2e-4, flow=1.333e-5, partition=0.29, kl=4e-4,
    kg=0.03, diffusivity=1.7e-9,
)  # fmt: skip


@MANY
@given(
    st.lists(
        st.tuples(st.floats(-3.0, 3.0), st.floats(-6.0, 7.0), st.sampled_from([1.0, 2.0])),
        min_size=1,
        max_size=3,
    ),
    st.floats(-6.0, -4.0),
    st.floats(1.0, 5.0),
)
def test_nothing_goes_missing_in_bottles_over_time(
    held: list[tuple[float, float, float]], ozone: float, span: float
) -> None:
    """Ozone sent in is found as slip, dissolved or used; a reactant only falls."""
    columns = [
        replace(PLAIN, reactant=10.0**amount, rate_constant=10.0**rate, per_ozone=each)
        for amount, rate, each in held
    ]
    sent = 10.0**ozone
    found = course_of_train(columns=columns, ozone=sent, times=np.linspace(0.0, 10.0**span, 25))
    each = np.array([one.per_ozone for one in columns])
    used = (found.reactant[0] - found.reactant) / each
    entered = found.taken / PLAIN.volume
    scale = 1e-9 * float(np.abs(entered).max() + np.abs(used).max()) + 1e-12
    assert np.abs(entered - used - found.dissolved).max() <= scale
    assert (np.diff(found.reactant, axis=0) <= scale).all()
    assert (found.reactant >= -scale).all()
    assert (found.dissolved >= -scale).all()
