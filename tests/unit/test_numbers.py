"""Rounding when shown: uncertainty to two figures, value to match (GUM 7.2.6)."""

from __future__ import annotations

import pytest

from ozonewright.show.numbers import (
    percent,
    power_of_ten,
    quantity,
    significant,
    span,
    unit_text,
    with_u,
)
from ozonewright.units import Kind


@pytest.mark.parametrize(
    ("value", "u", "shown"),
    [
        # JCGM 100, 7.2.6: quote u to at most two figures and round the value to match
        (100.02147, 0.00035, "100.02147 ± 0.00035"),
        (10.05762, 0.027, "10.058 ± 0.027"),
        (0.5342991, 0.0036294, "0.5343 ± 0.0036"),
        (0.0996, 0.00996, "0.100 ± 0.010"),
        (-1.5, 0.25, "−1.50 ± 0.25"),
        (1234.0, 56.0, "1234 ± 56"),
        (12345.0, 567.0, "12340 ± 570"),
        (2.0, 0.0, "2.000"),
        (1.5e-13, 2.0e-14, "1.500e-13 ± 2.0e-14"),
    ],
)
def test_value_with_uncertainty(value: float, u: float, shown: str) -> None:
    assert with_u(value, u) == shown


@pytest.mark.parametrize(
    ("value", "figures", "shown"),
    [
        (0.0, 4, "0"),
        (9.9999, 3, "10.0"),
        (0.00012345, 3, "0.000123"),
        (123456.0, 3, "123000"),
        (-2.5, 2, "−2.5"),
        (1.5e-13, 3, "1.50e-13"),
        (float("inf"), 3, "inf"),
    ],
)
def test_significant_figures(value: float, figures: int, shown: str) -> None:
    assert significant(value, figures) == shown


def test_units_are_printed_as_the_trade_does() -> None:
    assert unit_text("g/Nm3") == "g/Nm³"
    assert unit_text("1/h") == "/h"
    assert quantity(16.7, Kind.DIMENSIONLESS, "", figures=3) == "16.7"
    assert percent(0.0288) == "2.9 %"


def test_an_interval_is_rounded_like_its_uncertainty() -> None:
    assert span(0.0, 1e-3, Kind.MASS, "g", 1e-5) == "0.000 to 1.000 g"
    assert span(1e-3, 1e-3, Kind.MASS, "g", 0.0) == "1.000 to 1.000 g"


@pytest.mark.parametrize(
    ("value", "shown"),
    [(480.0, "480"), (6280.0, "6.3 × 10³"), (1e5, "1.0 × 10⁵"), (0.01, "1.0 × 10⁻²"), (2.0, "2.0")],
)
def test_a_number_of_many_decades(value: float, shown: str) -> None:
    assert power_of_ten(value) == shown
