"""Stages of the forward model against integrals and limits worked out by hand."""

from __future__ import annotations

from math import exp

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import least_squares, minimize

from ozonewright.physics.assay.line import line_errors_in_both, u_on_line, weighted_line
from ozonewright.physics.assay.settling import (
    bent_output,
    coldness_after_rest,
    coldness_after_run,
    drifted_rate,
    ozone_produced_settling,
)
from ozonewright.physics.assay.staged import (
    iodine_kept,
    ozone_held,
    ozone_shifted,
    share_of_train,
    surplus_of_run,
)


@pytest.mark.parametrize("excess", [0.4, -0.3, 0.0])
@pytest.mark.parametrize("coldness", [1.0, 0.4, 0.0])
def test_a_settling_generator_is_the_integral_of_its_rate(excess: float, coldness: float) -> None:
    whole, _ = quad(lambda t: 2.0 * (1.0 + excess * coldness * exp(-t / 90.0)), 0.0, 200.0)
    found = ozone_produced_settling(
        rate=2.0, on_time=200.0, excess=excess, coldness=coldness, time_constant=90.0
    )
    assert found == pytest.approx(whole, rel=1e-9)


def test_stages_take_arrays() -> None:
    found = ozone_produced_settling(
        rate=np.array([[1.0], [2.0]]),
        on_time=np.array([60.0, 120.0]),
        excess=0.5,
        coldness=1.0,
        time_constant=60.0,
    )
    # 60 + 0.5 * 60 * (1 - 1/e) = 78.96; 120 + 30 (1 - 1/e²) = 145.94, by hand
    assert found == pytest.approx(np.array([[78.96, 145.94], [157.93, 291.88]]), abs=0.01)


def test_coldness_falls_while_on_and_comes_back_at_rest() -> None:
    # half-lives, by hand: one of the run leaves a half, one of the rest halves the warmth
    half = 100.0 / np.log(2.0)
    after = coldness_after_run(coldness=1.0, on_time=100.0, time_constant=half)
    assert after == pytest.approx(0.5)
    again = coldness_after_rest(coldness=after, rest=100.0, time_constant=half)
    assert again == pytest.approx(0.75)
    assert coldness_after_rest(coldness=0.2, rest=0.0, time_constant=half) == pytest.approx(0.2)


def test_seconds_that_count_shift_the_ozone() -> None:
    assert ozone_shifted(produced=50.0, rate=0.2, late=36.0) == pytest.approx(57.2)
    assert ozone_shifted(produced=50.0, rate=0.2, late=-10.0) == pytest.approx(48.0)


def test_a_trap_holds_what_it_can() -> None:
    held = ozone_held(delivered=np.array([1.0, 100.0, 1000.0]), capacity=100.0)
    # 2^(-1/16) = 0.9576 where both are equal
    assert held == pytest.approx(np.array([1.0, 95.76, 100.0]), rel=1e-4)
    assert ozone_held(delivered=5.0, capacity=float("inf")) == 5.0


def test_iodine_kept_is_the_solution_of_its_balance() -> None:
    solved = solve_ivp(lambda t, n: 3.0 - 0.002 * n, (0.0, 480.0), [0.0], rtol=1e-10, atol=1e-12)
    found = 3.0 * 480.0 * iodine_kept(loss=0.002, on_time=480.0)
    assert found == pytest.approx(solved.y[0, -1], rel=1e-8)
    assert iodine_kept(loss=1e-9, on_time=60.0) == pytest.approx(1.0, abs=1e-6)


def test_a_train_holds_what_no_bottle_lets_pass() -> None:
    assert share_of_train(slip=0.1, bottles=2.0) == pytest.approx(0.99)
    assert share_of_train(slip=0.0, bottles=1.0) == 1.0


def test_a_surplus_has_a_part_that_grows() -> None:
    assert surplus_of_run(blank=7.0, oxidation=0.01, gas_time=300.0) == pytest.approx(10.0)


def test_a_creeping_rate_compounds() -> None:
    # 1.03² within the square of the difference between e^0.03 and 1.03
    assert drifted_rate(rate=1.0, creep=0.03, place=2.0) == pytest.approx(1.0618, abs=1e-4)


def test_a_bend_is_a_power() -> None:
    assert bent_output(on_time=480.0, reference=120.0, bend=-0.5) == pytest.approx(0.5)


PEARSON_X = [0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4]
PEARSON_Y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5]
WEIGHT_X = [1000.0, 1000.0, 500.0, 800.0, 200.0, 80.0, 60.0, 20.0, 1.8, 1.0]
WEIGHT_Y = [1.0, 1.8, 4.0, 8.0, 20.0, 20.0, 70.0, 70.0, 100.0, 500.0]


def test_line_with_errors_in_both_agrees_with_what_others_print() -> None:
    """The usual data of such lines (Pearson's, with York's weights).

    Another package's tests print 5.47991022403286 and -0.48053340744620 for line and slope, and
    0.359246522551112 and 0.070620269528771 for their uncertainties times 1.217905640539398.
    """
    u_x, u_y = np.array(WEIGHT_X) ** -0.5, np.array(WEIGHT_Y) ** -0.5
    found = line_errors_in_both(x=PEARSON_X, y=PEARSON_Y, u_x=list(u_x), u_y=list(u_y))
    assert found.intercept == pytest.approx(5.47991022403286, rel=1e-10)
    assert found.slope == pytest.approx(-0.48053340744620, rel=1e-10)
    assert found.u_intercept == pytest.approx(0.359246522551112 / 1.217905640539398, rel=1e-10)
    assert found.u_slope == pytest.approx(0.070620269528771 / 1.217905640539398, rel=1e-10)


def test_line_with_errors_in_both_is_where_an_independent_library_finds_the_least() -> None:
    x, y = np.array(PEARSON_X), np.array(PEARSON_Y)
    u_x, u_y = np.array(WEIGHT_X) ** -0.5, np.array(WEIGHT_Y) ** -0.5

    def squares(line: np.ndarray) -> float:
        off = y - line[1] - line[0] * x
        return float((off**2 / (u_y**2 + (line[0] * u_x) ** 2)).sum())

    least = minimize(
        squares, [-0.5, 5.0], method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-12}
    )
    found = line_errors_in_both(x=PEARSON_X, y=PEARSON_Y, u_x=list(u_x), u_y=list(u_y))
    assert found[:2] == pytest.approx(tuple(least.x), rel=1e-6)


MISRA1A = (
    [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
     378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0],
    [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
     44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78],
    (2.3894212918e02, 5.5015643181e-04),
)  # fmt: skip
BOXBOD = (
    [1.0, 2.0, 3.0, 5.0, 7.0, 10.0],
    [109.0, 149.0, 149.0, 191.0, 213.0, 224.0],
    (2.1380940889e02, 5.4723748542e-01),
)
DANWOOD = (
    [1.309, 1.471, 1.490, 1.565, 1.611, 1.680],
    [2.138, 3.421, 3.597, 4.340, 4.882, 5.660],
    (7.6886226176e-01, 3.8604055871e00),
)
"""NIST StRD, nonlinear: data and certified values (from memory and from other programs' tests)."""


@pytest.mark.parametrize(("x", "y", "certified"), [MISRA1A, BOXBOD], ids=["Misra1a", "BoxBOD"])
def test_a_saturating_curve_reproduces_certified_values(
    x: list[float], y: list[float], certified: tuple[float, float]
) -> None:
    """b1 (1 - exp(-b2 x)) is b1 b2 x times the share of iodine that is kept."""

    def off(b: np.ndarray) -> np.ndarray:
        t = np.array(x)
        return b[0] * b[1] * t * iodine_kept(loss=b[1], on_time=t) - np.array(y)

    start = np.array(certified) * (1.15, 0.85)
    found = least_squares(off, start, x_scale=start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert tuple(found.x) == pytest.approx(certified, rel=1e-6)


@pytest.mark.parametrize(("x", "y", "certified"), [MISRA1A, BOXBOD], ids=["Misra1a", "BoxBOD"])
def test_a_settling_curve_reproduces_certified_values(
    x: list[float], y: list[float], certified: tuple[float, float]
) -> None:
    """What a settling generator makes above its settled output is that curve, too."""

    def off(b: np.ndarray) -> np.ndarray:
        t = np.array(x)
        made = ozone_produced_settling(
            rate=1.0, on_time=t, excess=b[0] * b[1], coldness=1.0, time_constant=1.0 / b[1]
        )
        return made - t - np.array(y)

    start = np.array(certified) * (0.9, 1.1)
    found = least_squares(off, start, x_scale=start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert tuple(found.x) == pytest.approx(certified, rel=1e-6)


def test_a_bend_reproduces_certified_values() -> None:
    x, y, certified = DANWOOD

    def off(b: np.ndarray) -> np.ndarray:
        t = np.array(x)
        return b[0] * t * bent_output(on_time=t, reference=1.0, bend=b[1] - 1.0) - np.array(y)

    found = least_squares(off, [1.0, 3.5], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert tuple(found.x) == pytest.approx(certified, rel=1e-6)


def test_line_with_exact_times_is_the_weighted_line() -> None:
    x, y, u = [120.0, 240.0, 480.0], [30.7, 54.0, 101.3], [0.2, 0.4, 0.8]
    both = line_errors_in_both(x=x, y=y, u_x=[0.0] * 3, u_y=u)
    assert both == pytest.approx(weighted_line(x=x, y=y, u=u), rel=1e-12)


def test_a_line_that_keeps_moving_stops_all_the_same() -> None:
    """Points whose x are far less sure than their y need many rounds."""
    found = line_errors_in_both(
        x=[1.0, 2.0, 3.0], y=[1.0, 0.0, 2.0], u_x=[5.0, 5.0, 5.0], u_y=[1e-3, 1e-3, 1e-3]
    )
    assert np.isfinite(found).all()


def test_uncertainty_on_the_line_is_that_of_the_normal_equations() -> None:
    """u² at x is (1, x) C (1, x) with C the inverse of the normal matrix, by plain numpy."""
    x, y, u = [120.0, 240.0, 480.0, 900.0], [31.0, 54.0, 101.0, 182.0], [0.2, 0.4, 0.8, 1.1]
    line = weighted_line(x=x, y=y, u=u)
    design = np.array([[1.0, a] for a in x]) / np.array(u)[:, None]
    covariance = np.linalg.inv(design.T @ design)
    grid = np.array([0.0, 100.0, line.centre, 1500.0])
    wanted = [(np.array([1.0, a]) @ covariance @ np.array([1.0, a])) ** 0.5 for a in grid]
    assert u_on_line(x=grid, line=line) == pytest.approx(wanted, rel=1e-9)
    assert u_on_line(x=0.0, line=line) == pytest.approx(line.u_intercept)


def test_the_line_is_near_after_one_step_already(monkeypatch: pytest.MonkeyPatch) -> None:
    """The repetition may end before it stands still; it began at the line of exact x."""
    u_x, u_y = np.array(WEIGHT_X) ** -0.5, np.array(WEIGHT_Y) ** -0.5
    monkeypatch.setattr("ozonewright.physics.assay.line.STEPS", 1)
    found = line_errors_in_both(x=PEARSON_X, y=PEARSON_Y, u_x=list(u_x), u_y=list(u_y))
    assert found.slope == pytest.approx(-0.48053340744620, rel=0.05)
