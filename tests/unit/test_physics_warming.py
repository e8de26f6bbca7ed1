"""Time constants from temperatures: against an independent integration and fit."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit

from ozonewright.errors import NotApplicable, NotConverged
from ozonewright.physics.generator.warming import fit_warming, warmed_course

MINUTES = 60.0 * np.arange(0.0, 41.0)
ON = (MINUTES < 25 * 60.0).astype(float)


def course(tau: float) -> np.ndarray:
    """The same course by an independent solver."""
    done = solve_ivp(
        lambda t, y: [((1.0 if t < 25 * 60.0 else 0.0) - y[0]) / tau],
        (0.0, MINUTES[-1]),
        [0.0],
        t_eval=MINUTES,
        max_step=5.0,
        rtol=1e-8,
    )
    return np.asarray(done.y[0])


def test_the_course_of_an_independent_integration() -> None:
    found = warmed_course(times=MINUTES, on=ON, time_constant=276.0)
    assert found == pytest.approx(course(276.0), abs=1e-3)


def test_one_body_and_its_uncertainty_as_a_general_fit_has_them() -> None:
    noise = np.random.default_rng(3).normal(0.0, 0.3, len(MINUTES))
    temperatures = 298.0 + 60.0 * course(276.0) + noise
    found = fit_warming(times=MINUTES, temperatures=temperatures, on=ON, bodies=1)

    def model(times: np.ndarray, ambient: float, rise: float, tau: float) -> np.ndarray:
        off = np.maximum(times - 1500.0, 0.0)
        top = 1.0 - np.exp(-np.minimum(times, 1500.0) / tau)
        return np.asarray(ambient + rise * top * np.exp(-off / tau))

    best, covariance = curve_fit(model, MINUTES, temperatures, p0=[297.0, 50.0, 200.0])
    assert (found.ambient, *found.rises, *found.time_constants) == pytest.approx(best, rel=1e-4)
    along = max(found.correlation, 0.0)
    widened = (1.0 + along) / (1.0 - along)
    assert np.sqrt(np.diag(found.covariance) / widened) == pytest.approx(
        np.sqrt(np.diag(covariance)), rel=1e-2
    )


def test_intervals_hold_the_truth_as_often_as_they_say() -> None:
    """200 logs of known truth: u of the time constant is the scatter of what is found."""
    rng = np.random.default_rng(11)
    clean = 298.0 + 60.0 * course(276.0)
    fits = [
        fit_warming(
            times=MINUTES,
            temperatures=clean + rng.normal(0.0, 0.4, len(MINUTES)),
            on=ON,
            bodies=1,
        )
        for _ in range(200)
    ]
    off = np.array([(f.time_constants[0] - 276.0) / f.covariance[2, 2] ** 0.5 for f in fits])
    assert 0.90 < float((np.abs(off) < 2.0).mean()) <= 1.0


def test_two_bodies_are_found() -> None:
    noise = np.random.default_rng(5).normal(0.0, 0.1, len(MINUTES))
    temperatures = 296.0 + 45.0 * course(252.0) + 18.0 * course(1320.0) + noise
    found = fit_warming(times=MINUTES, temperatures=temperatures, on=ON, bodies=2)
    for value, truth, place in (
        (found.rises[0], 45.0, 1),
        (found.rises[1], 18.0, 2),
        (found.time_constants[0], 252.0, 3),
        (found.time_constants[1], 1320.0, 4),
    ):
        assert abs(value - truth) < 3.0 * found.covariance[place, place] ** 0.5


def test_exact_readings_are_met() -> None:
    temperatures = 298.0 + 60.0 * warmed_course(times=MINUTES, on=ON, time_constant=276.0)
    found = fit_warming(times=MINUTES, temperatures=temperatures, on=ON, bodies=1)
    assert found.time_constants[0] == pytest.approx(276.0, rel=1e-6)
    assert found.residual < 1e-6


@pytest.mark.parametrize(
    ("times", "temperatures"),
    [([0.0, 60.0, 120.0], [290.0, 300.0, 305.0]), (list(MINUTES), [290.0] * len(MINUTES))],
)
def test_nothing_to_fit_is_told(times: list[float], temperatures: list[float]) -> None:
    with pytest.raises(NotApplicable):
        fit_warming(
            times=np.array(times),
            temperatures=np.array(temperatures),
            on=np.ones(len(times)),
            bodies=1,
        )


def test_a_straight_line_holds_no_time_constant() -> None:
    with pytest.raises(NotConverged, match="straight"):
        fit_warming(
            times=MINUTES,
            temperatures=290.0 + MINUTES / 60.0,
            on=np.ones(len(MINUTES)),
            bodies=1,
        )


def test_readings_without_discharge_are_refused() -> None:
    with pytest.raises(NotApplicable):
        fit_warming(
            times=MINUTES,
            temperatures=290.0 + MINUTES / 60.0,
            on=np.zeros(len(MINUTES)),
            bodies=1,
        )
