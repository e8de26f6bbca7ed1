"""What a gas-line answer puts on the drawing."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from ozonewright.bench.gas_line import answer
from ozonewright.bench.rig import rig_of
from ozonewright.demo import rig_files
from ozonewright.questions.gas_line import ChangeRow, GasLine, SuckBack
from ozonewright.show.drawing import rig_drawing
from ozonewright.show.gas_line import change_cells
from ozonewright.show.gas_line_drawing import readout_of
from ozonewright.show.gas_line_page import answer_parts

WORKSHOP = tomllib.loads(rig_files()["rigs/workshop.toml"])
FLOWS = {"workshop.toml": 0.80, "workshop-pump-air.toml": 2.00, "workshop-pump-air-1.toml": 1.00}
"""The flows that the demo's settings are named after. [L/min]"""


def captioned(found: GasLine, table: dict[str, Any] = WORKSHOP) -> str:
    return readout_of(rig_of(table), found).caption


@pytest.mark.parametrize(("name", "flow"), FLOWS.items())
def test_the_rigs_of_the_demo_flow_as_their_settings_say(name: str, flow: float) -> None:
    found = answer(tomllib.loads(rig_files()[f"rigs/{name}"]))
    assert answer_parts(found).unit == "L/min"
    assert float(answer_parts(found).number) == pytest.approx(flow, rel=0.02)


def test_every_part_of_the_answer_reaches_the_drawing() -> None:
    found = answer(WORKSHOP)
    known = readout_of(rig_of(WORKSHOP), found, {"discharge tube": 3e-4}, "Beside.")
    assert known.bottleneck == found.bottleneck
    assert known.largest == found.largest_loss
    assert known.caption.endswith("Beside.")
    assert set(known.pressure) >= {"line", "washing bottle"}
    assert "bottleneck" in rig_drawing(rig_of(WORKSHOP), known).wide


def test_the_largest_loss_is_named_where_it_is_not_the_bottleneck() -> None:
    known = readout_of(rig_of(WORKSHOP), answer(WORKSHOP))
    other = type(known)(pressure=known.pressure, drop=known.drop, bottleneck="concentrator",
                        largest="washing bottle")  # fmt: skip
    drawn = rig_drawing(rig_of(WORKSHOP), other)
    assert "largest loss, 1.5" in drawn.wide
    assert ">largest loss<" in drawn.tall


@pytest.mark.parametrize(
    ("back", "words"),
    [
        (SuckBack(volume=3e-6, safety_bottle="safety bottle", safety_bottle_holds=True),
         "Suck-back 3.0 mL; the safety bottle holds 250 mL."),
        (SuckBack(volume=3e-4, safety_bottle="safety bottle", safety_bottle_holds=False),
         "Suck-back 300 mL; the safety bottle is too small with 250 mL."),
        (SuckBack(volume=3e-6, safety_bottle="safety bottle"),
         "Suck-back 3.0 mL; how much the safety bottle holds is not stated."),
        (SuckBack(volume=3e-6), "Suck-back 3.0 mL; no safety bottle before it."),
    ],
)  # fmt: skip
def test_suck_back_is_told_against_the_safety_bottle(back: SuckBack, words: str) -> None:
    assert captioned(GasLine(flow=0.0, suck_back=back)) == (
        f"No flow can be stated: nothing in this line limits it. {words}"
    )


def test_hold_up_without_a_time() -> None:
    assert "Hold-up 300 mL." in captioned(GasLine(hold_up=3e-4))


def test_a_change_without_limit_has_no_number() -> None:
    assert change_cells(GasLine(flow_ambient=1e-5), ChangeRow(change="x")) == ("x", "no limit", "")
