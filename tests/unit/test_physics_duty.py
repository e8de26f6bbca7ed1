"""A tube on a timer against closed forms, limits, and an independent integration."""

from __future__ import annotations

from math import e, inf, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from ozonewright.errors import NotApplicable
from ozonewright.physics.generator.duty import (
    course_share,
    longest_on_time,
    peak_rise,
    peak_share,
    shortest_off_time,
    trough_share,
    warmed_share,
)

TIMES = st.floats(1.0, 1e4)


def test_after_one_time_constant() -> None:
    # Any textbook of heat transfer: 63.2 % of the rise after one time constant.
    found = warmed_share(on_time=np.array([276.0, 0.0]), time_constant=276.0)
    assert found == pytest.approx([1.0 - 1.0 / e, 0.0])


def test_peak_by_hand() -> None:
    # exp(-6/4.6) = 0.27133, exp(-15/4.6) = 0.03836: 0.72867 ÷ 0.96164
    assert peak_share(on_time=6.0, off_time=9.0, time_constant=4.6) == pytest.approx(
        0.7577, abs=1e-4
    )
    # and 9 min later: × exp(-9/4.6) = 0.14135
    assert trough_share(on_time=6.0, off_time=9.0, time_constant=4.6) == pytest.approx(
        0.1071, abs=1e-4
    )


def integrated(on: float, off: float, tau: float, cycles: int) -> tuple[float, float]:
    """Peak and trough of the last cycle by an independent solver, one switch after the other."""
    warm = trough = 0.0
    for _ in range(cycles):
        trough = warm
        for heat, time in ((1.0, on), (0.0, off)):
            done = solve_ivp(
                lambda t, y, heat=heat: [(heat - y[0]) / tau],
                (0.0, time),
                [warm],
                rtol=1e-10,
                atol=1e-12,
            )
            warm = float(done.y[0, -1])
            if heat:
                peak = warm
    return peak, trough


@pytest.mark.parametrize(("on", "off"), [(60.0, 60.0), (360.0, 540.0), (1800.0, 120.0)])
def test_the_steady_pattern_of_an_independent_integration(on: float, off: float) -> None:
    peak, trough = integrated(on, off, 276.0, 40)
    pattern = {"on_time": on, "off_time": off, "time_constant": 276.0}
    assert peak_share(**pattern) == pytest.approx(peak, abs=1e-7)
    assert trough_share(**pattern) == pytest.approx(trough, abs=1e-7)


def test_the_course_of_an_independent_integration() -> None:
    times = np.array([0.0, 100.0, 360.0, 500.0, 900.0, 1000.0, 1260.0, 1700.0])
    found = course_share(time=times, on_time=360.0, off_time=540.0, time_constant=276.0)
    done = solve_ivp(
        lambda t, y: [((1.0 if t % 900.0 < 360.0 else 0.0) - y[0]) / 276.0],
        (0.0, 1700.0),
        [0.0],
        t_eval=times,
        max_step=1.0,
    )
    assert found == pytest.approx(done.y[0], abs=2e-3)
    alone = course_share(time=360.0, on_time=360.0, off_time=540.0, time_constant=276.0)
    assert alone == pytest.approx(1.0 - e ** (-360.0 / 276.0))


def test_the_longest_on_time_by_hand() -> None:
    # 45 K of 60 K: s = 0.75; 4.6 min × ln((1 - 0.75 × 0.14135) ÷ 0.25) = 5.862 min
    found = longest_on_time(allowed=45.0, off_time=9.0, rises=[60.0], time_constants=[4.6])
    assert found == pytest.approx(5.862, abs=1e-3)
    # cold before each start: 4.6 × ln 4
    alone = longest_on_time(
        allowed=np.array([45.0, 60.0, 120.0]), off_time=1e6, rises=[60.0], time_constants=[4.6]
    )
    assert alone == pytest.approx([4.6 * log(4.0), inf, inf])


@given(on=TIMES, off=TIMES, tau=TIMES)
def test_the_longest_on_time_undoes_the_peak(on: float, off: float, tau: float) -> None:
    share = peak_share(on_time=on, off_time=off, time_constant=tau)
    if share < 1.0 - 1e-6:
        found = longest_on_time(allowed=share, off_time=off, rises=[1.0], time_constants=[tau])
        assert found == pytest.approx(on, rel=1e-4)


@given(on=TIMES, off=TIMES, tau=TIMES)
def test_the_shortest_rest_undoes_the_peak(on: float, off: float, tau: float) -> None:
    share = peak_share(on_time=on, off_time=off, time_constant=tau)
    if on < 10.0 * tau and 1e-3 * tau < off < 10.0 * tau:
        found = shortest_off_time(allowed=share, on_time=on, rises=[1.0], time_constants=[tau])
        assert found == pytest.approx(off, rel=1e-3)


def test_rests_at_the_limits() -> None:
    shares = np.array([1.0, 1.5, 0.3])
    found = shortest_off_time(allowed=shares, on_time=4.6, rises=[1.0], time_constants=[4.6])
    # no rest where the limit is never reached; none suffices where one on-time is too long
    assert found == pytest.approx([0.0, 0.0, inf])
    assert shortest_off_time(allowed=2.0, on_time=1.0, rises=[1.0], time_constants=[4.6]) == 0.0


@pytest.mark.parametrize("function", [longest_on_time, shortest_off_time])
def test_no_rise_allowed_is_refused(function: object) -> None:
    other = "off_time" if function is longest_on_time else "on_time"
    given = {"allowed": 0.0, "rises": [1.0], "time_constants": [1.0], other: 1.0}
    with pytest.raises(NotApplicable):
        function(**given)  # type: ignore[operator]


@given(on=TIMES, off=TIMES, more=st.floats(1.01, 3.0), tau=TIMES)
def test_more_rest_is_never_warmer(on: float, off: float, more: float, tau: float) -> None:
    base = {"on_time": on, "off_time": off, "time_constant": tau}
    cooler = base | {"off_time": off * more}
    warmer = base | {"on_time": on * more}
    assert peak_share(**cooler) <= peak_share(**base) * (1 + 1e-12)
    assert peak_share(**warmer) >= peak_share(**base) * (1 - 1e-12)


def test_two_bodies_add_up() -> None:
    # by hand: 30 × 0.7577 (4.6 min) + 20 × (1 − e^−0.2) ÷ (1 − e^−0.5) = 22.73 + 9.214
    bodies = {"rises": [30.0, 20.0], "time_constants": [4.6, 30.0]}
    found = peak_rise(on_time=6.0, off_time=9.0, **bodies)
    assert found == pytest.approx(22.731 + 20.0 * 0.181269 / 0.393469, abs=1e-2)
    longest = longest_on_time(allowed=found, off_time=9.0, **bodies)
    assert longest == pytest.approx(6.0, rel=1e-6)
