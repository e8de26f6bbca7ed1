"""Ozone dosed and on-time left, by hand and over arrays."""

from __future__ import annotations

import numpy as np
import pytest

from ozonewright.physics.generator.dose import amount_dosed, on_time_left

HOUR = 3600.0


def test_a_run_of_four_minutes() -> None:
    """By hand: 11.1 mmol/h x 4/60 h = 0.740 mmol."""
    found = amount_dosed(rate=11.1e-3 / HOUR, on_time=240.0, uptake=1.0)
    assert found == pytest.approx(0.740e-3, rel=1e-12)


def test_the_hand_sum_of_the_reaction() -> None:
    """By hand: 12.0 mmol at 0.72 g/h (15.00 mmol/h at 48.00 g/mol) and 88 % take 54.5 min."""
    left = on_time_left(amount=12.0e-3, rate=0.72 / 48.0 / HOUR, uptake=0.88)
    assert left / 60.0 == pytest.approx(54.5, abs=0.05)


def test_both_over_arrays_and_each_the_other_backwards() -> None:
    rate = np.array([1e-6, 5e-6, 2e-5])
    amount = amount_dosed(rate=rate, on_time=np.array([60.0, 600.0, 7200.0]), uptake=0.5)
    assert amount == pytest.approx([3e-5, 1.5e-3, 7.2e-2])
    assert on_time_left(amount=amount, rate=rate, uptake=0.5) == pytest.approx([60, 600, 7200])


def test_more_than_wanted_is_time_below_zero() -> None:
    assert on_time_left(amount=-1e-3, rate=1e-6, uptake=1.0) == pytest.approx(-1000.0)
