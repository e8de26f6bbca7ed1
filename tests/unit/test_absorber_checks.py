"""What no bottle does is refused in both questions: the uptake, and a reaction in the flask."""

from __future__ import annotations

import pytest

from ozonewright.errors import OutOfBounds
from unit.test_absorber import ask, single
from unit.test_absorber_run import STONE, asked

BUBBLE = {"bubble": "200 mm", "flow": "0.80 NL/min"}
SLIP = {"output": "600 g/h", "flow": "0.80 NL/min"}


@pytest.mark.parametrize(
    ("texts", "told"), [(BUBBLE, "larger than primary"), (SLIP, "more ozone than")]
)
def test_bubbles_and_gas_are_checked_in_both(texts: dict[str, str], told: str) -> None:
    with pytest.raises(OutOfBounds, match=told):
        ask(single(), **texts)
    with pytest.raises(OutOfBounds, match=told):
        asked(single(**STONE), texts)


def test_a_bubble_that_fits_is_left_in_peace() -> None:
    assert ask(single(), bubble="3.0 mm", flow="0.80 NL/min").bottles
