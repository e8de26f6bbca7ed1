"""What must hold of every absorber: more depth, smaller bubbles never lower uptake."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.bench.absorber import uptake
from ozonewright.uncertain import Estimate
from unit.test_absorber import single

SLACK = 1e-9
FEW = settings(max_examples=25, deadline=None)
depths = st.floats(3.0, 60.0).map(lambda x: round(x, 2))
bubbles = st.floats(0.3, 12.0).map(lambda x: round(x, 2))
flows = st.floats(0.1, 1.5).map(lambda x: round(x, 3))
liquids = st.sampled_from(
    [
        {},
        {"potassium_iodide": "4.0 g"},
        {"liquid": "methanol", "bath": "-40 °C"},
        {"liquid": "ethyl acetate", "bath": "-20 °C", "substrate": "0.01 mol/L",
         "rate_constant": "100 L/mol/s"},
    ]
)  # fmt: skip


def taken(fields: dict[str, Any], **texts: str) -> float:
    found = uptake(
        single(bore="40 mm", volume="2 L", **fields), {"output": "0.6 g/h", **texts}
    ).efficiency
    assert isinstance(found, Estimate)
    assert 0.0 <= found.interval[0] <= found.value <= 1.0
    return found.value


@FEW
@given(liquids, flows, depths, depths)
def test_more_depth_never_lowers_uptake(
    fields: dict[str, Any], flow: float, one: float, other: float
) -> None:
    flat, deep = (
        taken({**fields, "depth": f"{cm} cm"}, flow=f"{flow} NL/min", bubble="2.50 mm")
        for cm in sorted((one, other))
    )
    assert flat <= deep + SLACK


@FEW
@given(liquids, flows, bubbles, bubbles)
def test_smaller_bubbles_never_lower_uptake(
    fields: dict[str, Any], flow: float, one: float, other: float
) -> None:
    fine, coarse = (
        taken(fields, flow=f"{flow} NL/min", bubble=f"{mm} mm") for mm in sorted((one, other))
    )
    assert coarse <= fine + SLACK
