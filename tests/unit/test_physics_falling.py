"""Output and temperature as means over a pattern: closed forms beside an integrator."""

from __future__ import annotations

from math import exp

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from ozonewright.physics.generator.falling import (
    first_mean_rise,
    first_mean_share,
    mean_between,
    mean_rise,
    mean_share,
    output_at,
    output_between,
    trough_rise,
)

PATTERN = {"on_time": 6.0, "off_time": 9.0}


def test_the_mean_is_that_of_an_integrator() -> None:
    """dT/dt = (on - T) / tau, stepped by scipy until the pattern repeats itself."""
    tau, temperature, sums = 4.6, 0.0, []
    for _ in range(12):
        on = solve_ivp(
            lambda _, y: [(1.0 - y[0]) / tau, y[0]], (0.0, 6.0), [temperature, 0.0],
            rtol=1e-10, atol=1e-12,
        )  # fmt: skip
        sums.append(on.y[1, -1] / 6.0)
        temperature = float(on.y[0, -1] * exp(-9.0 / tau))
    assert mean_share(**PATTERN, time_constant=tau) == pytest.approx(sums[-1], rel=1e-6)
    assert first_mean_share(on_time=6.0, time_constant=tau) == pytest.approx(sums[0], rel=1e-6)


def test_limits_of_the_mean() -> None:
    # hardly any on-time: the mean is the trough, nought; a very long one: all of the rise
    found = mean_share(on_time=np.array([1e-3, 1e5]), off_time=50.0, time_constant=4.6)
    assert found == pytest.approx([0.0, 1.0], abs=2e-4)
    # quick switching: the duty itself
    assert mean_share(on_time=0.02, off_time=0.03, time_constant=4.6) == pytest.approx(
        0.4, abs=2e-3
    )


def test_bodies_add_up() -> None:
    given = {"rises": [45.0, 18.0], "time_constants": [4.2, 22.0]}
    mean = 45.0 * mean_share(**PATTERN, time_constant=4.2)
    mean += 18.0 * mean_share(**PATTERN, time_constant=22.0)
    assert mean_rise(**PATTERN, **given) == pytest.approx(mean)
    assert trough_rise(**PATTERN, **given) < mean < 63.0
    # the integral of both warmings from cold, by scipy
    area, _ = quad(lambda t: 45.0 * (1 - exp(-t / 4.2)) + 18.0 * (1 - exp(-t / 22.0)), 0.0, 6.0)
    assert first_mean_rise(on_time=6.0, **given) == pytest.approx(area / 6.0)


def test_output_by_hand() -> None:
    # 0.62 g/h at 85 °C, -0.4 % per kelvin: 30 K cooler it is 12 % more
    found = output_at(
        rate=0.62, coefficient=-0.004, temperature=np.array([328.15, 358.15]), reference=358.15
    )
    assert found == pytest.approx([0.6944, 0.62])
    assert output_between(cold=0.8, steady=0.6, share=0.25) == pytest.approx(0.75)


def test_the_mean_of_a_course_of_readings() -> None:
    # by hand: 20 to 40 over 10 s, flat until 20 s; from 5 to 15 s: (30 + 40) / 2 · 5 + 40 · 5
    times, values = np.array([0.0, 10.0, 20.0]), np.array([20.0, 40.0, 40.0])
    found = mean_between(times=times, values=values, begin=5.0, end=15.0)
    assert found == pytest.approx((35.0 * 5.0 + 40.0 * 5.0) / 10.0)
