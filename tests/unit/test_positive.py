"""Draws of positive quantities: mean and spread as stated, never negative."""

from __future__ import annotations

import numpy as np
import pytest

from ozonewright.errors import OutOfBounds
from ozonewright.uncertain import Measured
from ozonewright.uncertain.positive import estimate_of, positive_draws
from ozonewright.units import Kind


def of(value: float, u: float, shape: str = "normal") -> Measured:
    return Measured(value, u, "removal", Kind.RATE, shape)  # type: ignore[arg-type]


def test_log_normal_draws_keep_mean_and_spread() -> None:
    drawn = positive_draws(of(2.8, 1.3), draws=200_000)
    assert isinstance(drawn, np.ndarray)
    assert drawn.min() > 0.0
    assert drawn.mean() == pytest.approx(2.8, rel=0.01)
    assert drawn.std() == pytest.approx(1.3, rel=0.02)


def test_bounded_draws_stay_in_their_limits_and_above_zero() -> None:
    drawn = positive_draws(of(1.0, 1.0, "rectangular"))
    assert isinstance(drawn, np.ndarray)
    assert drawn.min() >= 0.0
    assert drawn.max() <= 1.0 + 3.0**0.5
    narrow = positive_draws(of(1.0, 0.1, "rectangular"))
    assert narrow.min() >= 1.0 - 0.1 * 3.0**0.5  # type: ignore[union-attr]


def test_exact_and_zero_stay_what_they_are() -> None:
    assert positive_draws(of(2.8, 0.0)) == 2.8
    assert positive_draws(of(0.0, 0.5, "rectangular")) == 0.0


def test_negative_is_refused() -> None:
    with pytest.raises(OutOfBounds):
        positive_draws(of(-1.0, 0.1))


def test_same_seed_same_draws() -> None:
    first, again = (positive_draws(of(2.8, 1.3), seed=3) for _ in range(2))
    assert np.array_equal(first, again)


def test_estimate_tells_interval_and_shares() -> None:
    a = np.random.default_rng(1).normal(10.0, 1.0, 20_000)
    b = np.random.default_rng(2).normal(10.0, 0.5, 20_000)
    found = estimate_of(20.0, a + b, {"a": a, "b": b, "c": 3.0})
    assert found.u == pytest.approx(1.25**0.5, rel=0.02)
    assert found.interval == pytest.approx((20.0 - 2.19, 20.0 + 2.19), abs=0.08)
    # variances 1 and 0.25: 80 and 20 %
    assert [share.input for share in found.budget] == ["a", "b"]
    assert found.budget[0].share_percent == pytest.approx(80.0, abs=2.0)
    assert found.budget[0].sensitivity == pytest.approx(1.0, abs=0.05)


def test_what_does_not_vary_has_no_share() -> None:
    a = np.random.default_rng(1).normal(10.0, 1.0, 20_000)
    still = {"b": np.full(20_000, 5.0), "c": 1e-200 * a}
    assert [share.input for share in estimate_of(10.0, a, {"a": a, **still}).budget] == ["a"]


def test_estimate_of_a_certain_result() -> None:
    found = estimate_of(1.0, np.ones(100), {"a": 1.0})
    assert found.u == 0.0
    assert found.budget == ()
    assert found.k == float("inf")
