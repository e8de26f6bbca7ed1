"""A generator whose runs know both powers: yields at the plug and of the discharge."""

from __future__ import annotations

from dataclasses import replace

import pytest

from ozonewright.bench.generator import answered, question_of_files
from ozonewright.questions.generator import TubeRun
from ozonewright.questions.generator.bases import supply_of, yield_of_discharge
from ozonewright.show.generator import generator_text
from ozonewright.uncertain import Estimate, Measured, propagate
from ozonewright.units import Kind
from unit.tubes import point, tube

RUN = {
    "run": {"label": "a", "rate": "0.56 g/h ± 1 %"},
    "gas": {"feed": "oxygen", "flow": "0.80 NL/min"},
    "electrical": {"power": "38.0 W ± 1 %", "discharge_power": "19.0 W ± 3 %", "wall": "45 °C"},
}


def watts(name: str, value: float, share: float) -> Measured:
    return Measured(value, share * value, name, Kind.POWER)


def both(plug: float, discharge: float) -> TubeRun:
    return replace(
        tube("a", point(0.8), 0.5),
        plug=watts("power", plug, 0.03),
        discharge=watts("discharge power", discharge, 0.04),
    )


def test_the_supply_by_hand() -> None:
    """19 W of 38 W is a half, ± 5 % by 3 and 4 %; alike in all runs, so two are no surer."""
    one = supply_of([both(38.0, 19.0), tube("plug only", point(0.8), 0.5)])
    assert one is not None
    assert one.value == pytest.approx(0.5)
    assert one.u == pytest.approx(0.025, rel=1e-3)
    two = supply_of([both(38.0, 19.0), both(38.0, 19.0)])
    assert two is not None
    assert two.u == pytest.approx(0.025, rel=1e-3)
    apart = supply_of([both(40.0, 16.0), both(40.0, 24.0)])
    assert apart is not None
    assert apart.value == pytest.approx(0.5)
    assert apart.u == pytest.approx((0.1**2 + 0.025**2) ** 0.5, rel=1e-3)
    assert supply_of([tube("plug only", point(0.8), 0.5)]) is None


def test_the_yield_by_hand() -> None:
    """15 g/kWh at the plug over a half is 30 g/kWh; 5 % and 5 % are 7 %."""
    at_plug = propagate(lambda y: y, {"y": Measured(15.0, 0.75, "yield", Kind.YIELD)})
    half = propagate(lambda s: s, {"s": Measured(0.5, 0.025, "supply", Kind.SHARE)})
    found = yield_of_discharge(at_plug, "plug", half)
    assert found is not None
    assert found.value == pytest.approx(30.0)
    assert found.u == pytest.approx(30.0 * 0.05 * 2**0.5, rel=0.01)
    assert yield_of_discharge(at_plug, "plug", None) is None
    assert yield_of_discharge(at_plug, "discharge", None) is at_plug
    assert yield_of_discharge(None, "plug", half) is None


def test_documents_of_both_powers() -> None:
    found = answered(question_of_files([RUN], {}))
    assert found.power_at == "plug"
    assert isinstance(found.energy_yield, Estimate)
    assert isinstance(found.yield_discharge, Estimate)
    assert found.yield_discharge.value == pytest.approx(2.0 * found.energy_yield.value)
    assert "the supply passes on 50 %" in " ".join(generator_text(found).split())
    inside = {"discharge_power": "19.0 W ± 3 %"}
    lone = answered(question_of_files([{**RUN, "electrical": inside}], {}))
    assert lone.power_at == "discharge"
    assert lone.yield_discharge == lone.energy_yield
    assert lone.supply_efficiency is None
