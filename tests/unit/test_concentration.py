"""The concentration along a rig from a run made with it."""

from __future__ import annotations

import tomllib
from typing import Any

import numpy as np
import pytest

from ozonewright.bench.concentration import concentrations
from ozonewright.bench.output import outputs
from ozonewright.bench.rig import rig_of
from ozonewright.demo import rig_files
from ozonewright.physics.assay.train import slip_from_guard_share
from ozonewright.questions.output import Output

WORKSHOP = tomllib.loads(rig_files()["rigs/workshop.toml"])
NORMAL_VOLUME = 0.02241397


def run(titres: list[str], **gas: Any) -> Output:
    flow = {"feed": "oxygen", "flow": "0.80 L/min ± 4 %", "temperature": "22 °C",
            "pressure": "101.3 kPa"}  # fmt: skip
    return outputs([{
        "run": {"on_time": "240 s ± 1.5 s"},
        "gas": flow | gas,
        "titration": {"titres": titres, "blank": "0.18 mL",
                      "titrant": {"concentration": "0.05097 mol/L"}},
    }])[0]  # fmt: skip


def test_slip_from_the_guard_share_by_hand() -> None:
    """97 % caught by each: 97 and 2.91 of 99.91, so 2.9126 %, and 0.03 pass (by hand)."""
    assert slip_from_guard_share(guard_share=0.0291 / 0.9991) == pytest.approx(0.03)
    both = slip_from_guard_share(guard_share=np.array([0.0, 1.0 / 3.0]))
    assert both == pytest.approx([0.0, 0.5])


def test_behind_tube_and_bottles_by_hand() -> None:
    """Design, section 4: 12.06 g/Nm³; guard share 0.84 of 29.12 mL, 2.885 %.

    So 2.970 % pass: 0.3582 g/Nm³ behind the first bottle, 0.01064 behind the guard (by hand).
    """
    found = concentrations(rig_of(WORKSHOP), run(["28.46 mL", "1.02 mL"]))
    shown = {name: 1e3 * value / NORMAL_VOLUME for name, value in found.items()}
    assert shown["discharge tube"] == pytest.approx(12.06, abs=0.02)
    assert shown["washing bottle"] == pytest.approx(0.358, abs=0.001)
    assert shown["guard bottle"] == pytest.approx(0.0106, abs=1e-4)


def test_nothing_is_made_up() -> None:
    rig = rig_of(WORKSHOP)
    assert concentrations(rig, None) == {}
    no_flow = outputs([{"run": {"on_time": "4 min", "rate": "0.5 g/h"}}])[0]
    assert concentrations(rig, no_flow) == {}
    two = WORKSHOP | {"part": [*WORKSHOP["part"], WORKSHOP["part"][3] | {"name": "second"}]}
    assert concentrations(rig_of(two), run(["28.46 mL", "1.02 mL"])) == {}


@pytest.mark.parametrize("titres", [["28.46 mL"], ["1.02 mL", "28.46 mL"]])
def test_one_bottle_or_two_out_of_order_tell_nothing_of_the_slip(titres: list[str]) -> None:
    assert set(concentrations(rig_of(WORKSHOP), run(titres))) == {"discharge tube"}


def test_bottles_without_their_role_are_not_taken_for_the_runs() -> None:
    plain = WORKSHOP | {"part": [
        {name: value for name, value in part.items() if name != "role"}
        for part in WORKSHOP["part"]
    ]}  # fmt: skip
    found = concentrations(rig_of(plain), run(["28.46 mL", "1.02 mL"]))
    assert set(found) == {"discharge tube"}
