"""Meters read for another gas and over water."""

from __future__ import annotations

import pytest

from ozonewright.bench.gas_line import meter
from ozonewright.errors import Faults

LITRE = 1e-3 / 60.0
NORMAL = 1e-3 / 0.02241397 / 60.0
KPA = 1e3


def test_meters_by_hand() -> None:
    at = {"temperature": "20 °C", "pressure": "101.325 kPa"}
    float_ = meter({"reading": "0.750 L/min", "scale": "air", "gas": "oxygen", **at})
    assert float_.factor is not None
    assert float_.factor.value == pytest.approx(0.9514, abs=2e-4)  # check case F-01
    assert float_.normal is not None
    assert float_.normal.value / NORMAL == pytest.approx(0.75 * 0.9514 / 1.07322, rel=1e-3)
    wet = meter({"displaced": "500 mL", "time": "38.0 s", **at})
    assert wet.flow is not None
    assert wet.normal is not None
    assert wet.flow.value / LITRE == pytest.approx(0.500 / 38.0 * 60.0)
    # less 2.339 of 101.325 kPa vapour
    dry = 0.500 / 38.0 * 60.0 / 1.07322 * (1.0 - 2.339 / 101.325)
    assert wet.normal.value / NORMAL == pytest.approx(dry, rel=1e-3)


@pytest.mark.parametrize(
    ("texts", "wheres"),
    [
        ({"reading": "0.75 L/min"}, {"scale", "gas", "temperature", "pressure"}),
        (
            {"displaced": "500 mL", "temperature": "20", "pressure": "1 kPa"},
            {"time", "temperature"},
        ),
        (
            {"reading": "1 L/min", "scale": "neon", "gas": "ozone", "temperature": "20 °C",
             "pressure": "100 kPa"},
            {"scale", "gas"},
        ),
    ],
)  # fmt: skip
def test_faults_of_a_meter(texts: dict[str, str], wheres: set[str]) -> None:
    with pytest.raises(Faults) as caught:
        meter(texts)
    assert {fault.where for fault in caught.value} == wheres
