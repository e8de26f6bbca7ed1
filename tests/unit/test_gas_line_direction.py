"""Hold-up, suck-back, blocked outlets."""

from __future__ import annotations

import pytest

from ozonewright.bench.gas_line import answer
from ozonewright.show.words import sentence
from unit.rigs import changed, codes, design, inserted, note, rows, story, without

LITRE = 1e-3 / 60.0
NORMAL = 1e-3 / 0.02241397 / 60.0
KPA = 1e3


def test_hold_up_and_time_from_tube_to_liquid() -> None:
    """By hand: 2 m of 2 mm hold 6.28 mL; at 2.9 L/min and 108 kPa that is 0.14 s."""
    table = story()
    generator = table["part"].pop(5)
    table["part"].insert(4, generator)
    found = answer(table)
    assert found.hold_up == pytest.approx(6.283e-6, rel=1e-3)
    pressure = 101.325 + (rows(found)["line"].inlet / KPA + 5.368) / 2.0
    by_hand = 6.283e-6 / (found.flow_ambient * 101.325 / pressure)
    assert found.hold_up_time == pytest.approx(by_hand, rel=2e-3)
    # the gap: pi 1.5 (20 - 1.5) mm2 over 180 mm is 15.7 mL
    at = 101.325 + rows(found)["generator"].inlet / KPA
    assert found.residence == pytest.approx(
        15.69e-6 / (found.flow_ambient * 101.325 / at), rel=2e-3
    )


def test_without_a_discharge_tube_the_hold_up_begins_at_the_supplier() -> None:
    found = answer(design())
    assert found.hold_up == pytest.approx(3.1416e-6, rel=1e-4)
    assert found.residence is None
    assert note(found, "gas-line-hold-up-from").values == {"supplier": "pump"}


def test_a_safety_bottle_without_volume_leaves_the_hold_up_open() -> None:
    table = inserted(design(), 3, name="trap", kind="safety bottle")
    found = answer(table)
    assert found.hold_up is None
    assert "trap.volume" in found.unknowns
    assert note(found, "gas-line-safety-bottle").values["holds"] is None
    assert "not known" in sentence(note(found, "gas-line-safety-bottle"))
    assert found.suck_back is not None
    assert found.suck_back.safety_bottle_holds is None
    small = answer(inserted(design(), 3, name="trap", kind="safety bottle", volume="100 mL"))
    assert "smaller" in sentence(note(small, "gas-line-safety-bottle"))
    large = answer(inserted(design(), 3, name="trap", kind="safety bottle", volume="250 mL"))
    assert large.suck_back is not None
    assert large.suck_back.safety_bottle_holds is True
    assert "gas-line-safety-bottle" not in codes(large)


def test_suck_back_by_hand() -> None:
    """250 mL of gas, 10 K warmer than the room: the missing 3.41 % of 102.8 kPa."""
    table = inserted(design(), 3, name="trap", kind="safety bottle", volume="250 mL")
    back = answer(table).suck_back
    assert back is not None
    shrink = 10.0 / 303.15
    weight, pressure, area = 998.25 * 9.80665, 101325.0, 3.14159e-6
    inside = pressure + 0.15 * weight
    # (P - w x)(V - A x) = P V (1 - shrink), the small root by a few rounds of substitution
    x = 0.0
    for _ in range(100):
        x = (inside - inside * 250e-6 * (1.0 - shrink) / (250e-6 - area * x)) / weight
    assert back.height == pytest.approx(x - 0.15, rel=1e-3)
    assert back.volume == pytest.approx(area * x, rel=1e-3)
    assert back.gas == pytest.approx(250e-6)
    assert back.height_leaky is not None
    assert back.height_leaky > back.height


def test_a_stated_wall_temperature_takes_the_place_of_the_guess() -> None:
    table = changed(without(story(), "valve"), "generator", wall_temperature="60 °C")
    found = answer(table)
    assert note(found, "gas-line-suck-back").values["assumed"] is None
    assert "gas-line-no-check-valve" not in codes(found)
    table = without(table, "leg 1", "leg 2")
    table = changed(table, "pump", outlets=1)
    table = changed(table, "join", after="pump")
    found = answer(table)
    assert "check valve" in sentence(note(found, "gas-line-no-check-valve"))


def test_a_cold_flask_draws_from_the_tail_bottle() -> None:
    table = changed(
        design(), "bottle", liquid="methanol", capacity="250 mL", temperature="-40 °C",
        bath="-45 °C", volume="100 mL",
    )  # fmt: skip
    table["part"].append(
        {"name": "tail", "kind": "tail bottle", "liquid": "water", "volume": "200 mL",
         "depth": "8 cm"}
    )  # fmt: skip
    told = [one.values for one in answer(table).notes if one.code == "gas-line-suck-back"]
    (tail,) = [values for values in told if values["bottle"] == "tail"]
    # 150 mL from 20 °C to -45 °C: 22 % of the pressure are missing
    assert tail["height"] > 1.0


def test_over_pressure_and_a_blocked_outlet() -> None:
    assert answer(design()).blocked_pressure == pytest.approx(18e3)
    assert "18.0 kPa" in sentence(note(answer(design()), "gas-line-blocked"))
    table = without(design(), "pump")
    dial = {"name": "gas", "kind": "cylinder", "gas": "oxygen", "flow": "0.5 NL/min"}
    found = answer(inserted(table, 0, **dial))
    assert found.flow == pytest.approx(0.5 * NORMAL, rel=1e-6)
    assert "dial" in sentence(note(found, "gas-line-over-pressure"))
    held = {"name": "gas", "kind": "cylinder", "gas": "oxygen", "regulator": "20 kPa"}
    for pressure, blocked in (("150 bar gauge", 20e3), ("1.1 bar abs", 8675.0)):
        found = answer(inserted(table, 0, **held, pressure=pressure))
        assert found.blocked_pressure == pytest.approx(blocked)
