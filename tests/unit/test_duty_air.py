"""Air through the box and on the tube, and what passes while the discharge is off."""

from __future__ import annotations

import pytest

from ozonewright.bench.duty import timer
from ozonewright.errors import Faults, MissingValue
from ozonewright.show.duty import duty_text
from ozonewright.show.words import sentence
from unit.test_duty import HEAT, STORY, value

TUBE = {"heat": "30 W", "tube_diameter": "20 mm", "tube_length": "200 mm"}
FAN = {
    "fan": "30 m3/h", "shut_off": "25 Pa", "openings": "20 cm2", "box_section": "300 cm2",
    "fan_outlet": "50 cm2",
}  # fmt: skip


def test_the_same_air_is_worth_more_on_the_tube() -> None:
    found = timer(STORY | HEAT | TUBE | FAN)
    still, through, on = found.cooling
    # by hand in test_physics_cooling.py: 14.35 m3/h; over 300 and 50 cm2
    assert value(through.flow) * 3600.0 == pytest.approx(14.35, rel=2e-3)
    assert value(through.velocity) == pytest.approx(14.35 / 3600.0 / 0.03, rel=2e-3)
    assert value(on.velocity) == pytest.approx(14.35 / 3600.0 / 0.005, rel=2e-3)
    # 30 W in 14.35 m3/h of air: 6.28 K over 25 °C
    assert value(on.air_temperature) - 298.15 == pytest.approx(6.28, rel=5e-3)
    assert value(on.temperature) < value(still.temperature)
    assert value(on.temperature) < value(through.temperature)
    text = " ".join(duty_text(found).split())
    assert "on the tube 14 m³/h 0.80 m/s" in text
    # 30 W in 10 K: 9.02 m3/h
    assert "9.0 m³/h of air through the box" in text
    assert {"churchill_1975", "churchill_1977"} <= set(found.sources)


def test_what_is_not_known_of_the_fan_is_told() -> None:
    bare = timer(STORY | HEAT | TUBE)
    assert len(bare.cooling) == 1
    free = timer(STORY | HEAT | TUBE | {"fan": "30 m3/h"})
    assert len(free.cooling) == 1
    codes = [{note.code for note in found.notes} for found in (bare, free)]
    assert "duty-no-fan" in codes[0]
    assert {"duty-fan-free", "duty-fan-nowhere"} <= codes[1]
    for note in (*bare.notes, *free.notes):
        assert sentence(note)
    assert timer(STORY).cooling == ()


def test_faults_of_the_air() -> None:
    with pytest.raises(Faults) as caught:
        timer(STORY | HEAT | {"fan": "30 m3/h"})
    assert {fault.where for fault in caught.value} == set(TUBE)
    with pytest.raises(MissingValue, match="air around the box"):
        timer(STORY | TUBE)


GAS = {"gas": "runs on", "flow": "0.74 NL/min"}


def test_solvent_that_the_gas_carries_off() -> None:
    cold = {"solvent": "methanol", "liquid_temperature": "-40 °C"}
    found = timer(STORY | GAS | cold)
    # 26.64 NL are 1.1886 mol. Methanol at -40 °C has near 0.2 kPa (1 mmHg at -44 °C, 10 at -16 °C
    # in old tables, from memory): 1.1886 × 0.2 / 101 × 32.04 g
    assert value(found.solvent_wasted) * 3.6e6 == pytest.approx(0.075, rel=0.15)
    assert "of methanol" in duty_text(found)
    assert timer(STORY | GAS).solvent_wasted is None
    assert timer(STORY | cold).solvent_wasted is None


@pytest.mark.parametrize(
    ("said", "place"),
    [
        ({"solvent": "methanol"}, "liquid_temperature"),
        ({"solvent": "treacle", "liquid_temperature": "20 °C"}, "solvent"),
        ({"solvent": "dichloromethane", "liquid_temperature": "39.5 °C"}, "liquid_temperature"),
    ],
)
def test_faults_of_the_solvent(said: dict[str, str], place: str) -> None:
    with pytest.raises(Faults) as caught:
        timer(STORY | GAS | said)
    assert {fault.where for fault in caught.value} == {place}
