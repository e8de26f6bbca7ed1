"""Time constants and rises of a tube from temperatures that were noted while it was switched."""

from __future__ import annotations

from collections.abc import Sequence
from math import e
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotApplicable, NotConverged

Array = NDArray[np.float64]
FIRST_GUESSES = 25
"""Time constants tried before the search is refined."""
ROUNDS = 60


class Warming(NamedTuple):
    """A fit: the ambient, then the rise and the time constant of each body, the quickest first."""

    ambient: float
    rises: tuple[float, ...]
    time_constants: tuple[float, ...]
    covariance: Array
    """Of ambient, rises, time constants, in this order; K and s."""
    residual: float
    """Standard deviation of the readings about the curve. [K]"""
    correlation: float
    """Of each residual with the one before it; the covariance is widened for it. [1]"""
    dof: float
    squares: float
    """Sum of the squared residuals. [K2]"""
    course: Array
    """The curve at each reading. [K]"""


def warmed_course(*, times: Array, on: Array, time_constant: float) -> Array:
    """Share of the continuous rise at each reading, from cold at the first.

    Parameters
    ----------
    times : array of float
        Of the readings, rising; shape (n,). [s]
    on : array of float
        1 where the discharge is on from this reading to the next, else 0; shape (n,). [1]
    time_constant : float
        Of the body. [s]

    Returns
    -------
    shares : array of float
        Shape (n,). [1]

    Raises
    ------
    None

    Valid
    -----
    One body, even heating, switched only at the readings.

    Source
    ------
    incropera_2007, lumped capacitance
    """
    kept = e ** (-np.diff(times) / time_constant)
    shares = np.zeros(len(times))
    for k, keep in enumerate(kept):
        shares[k + 1] = on[k] + (shares[k] - on[k]) * keep
    return shares


def fit_warming(*, times: Array, temperatures: Array, on: Array, bodies: int) -> Warming:
    """Ambient, rises and time constants that fit a course of temperatures best.

    Parameters
    ----------
    times : array of float
        Of the readings, rising; shape (n,). [s]
    temperatures : array of float
        Read; shape (n,). [K]
    on : array of float
        1 where the discharge is on from this reading to the next, else 0; shape (n,). [1]
    bodies : int
        One, or two that warm side by side. [-]

    Returns
    -------
    fit : Warming
        With its covariance. [-]

    Raises
    ------
    NotApplicable
        Fewer readings than a fit needs, or no rise in them.
    NotConverged
        The readings don't hold a time constant: they are as good as straight.

    Valid
    -----
    Cold at the first reading; ambient that stays.

    Source
    ------
    incropera_2007, lumped capacitance
    jcgm_100_2008, covariance of fitted parameters
    """
    count = 1 + 2 * bodies
    if len(times) < count + 2:
        raise NotApplicable(
            "too few temperatures for a fit",
            got=f"{len(times)} readings",
            fix=f"Note at least {count + 2}, spread over the warming.",
        )
    if np.ptp(temperatures) == 0.0 or not on.any():
        raise NotApplicable(
            "the readings show no warming", fix="Note temperatures from cold with the discharge on."
        )
    taus = _refined(times, temperatures, on, _guess(times, temperatures, on, bodies))
    linear, _ = _linear(times, temperatures, on, taus)
    return _with_covariance(times, temperatures, on, linear, taus)


def _columns(times: Array, on: Array, taus: Sequence[float]) -> Array:
    courses = [warmed_course(times=times, on=on, time_constant=tau) for tau in taus]
    return np.column_stack([np.ones(len(times)), *courses])


def _linear(
    times: Array, temperatures: Array, on: Array, taus: Sequence[float]
) -> tuple[Array, float]:
    """Return ambient and rises that fit best for given time constants, and the squares left."""
    columns = _columns(times, on, taus)
    found: Array = np.linalg.lstsq(columns, temperatures, rcond=None)[0].astype(np.float64)
    return found, float(((temperatures - columns @ found) ** 2).sum())


def _guess(times: Array, temperatures: Array, on: Array, bodies: int) -> tuple[float, ...]:
    span = times[-1] - times[0]
    tried = np.geomspace(np.diff(times).min() / 3.0, 3.0 * span, FIRST_GUESSES)
    sets = (
        [(tau,) for tau in tried]
        if bodies == 1
        else [(a, b) for i, a in enumerate(tried) for b in tried[i + 2 :]]
    )
    return min(sets, key=lambda taus: _linear(times, temperatures, on, taus)[1])


def _refined(
    times: Array, temperatures: Array, on: Array, taus: Sequence[float]
) -> tuple[float, ...]:
    """Refine each time constant in turn by narrowing the step of its logarithm."""
    best, logs, step = _linear(times, temperatures, on, taus)[1], np.log(taus), 0.25
    for _ in range(ROUNDS):
        moved = False
        for body in range(len(logs)):
            for sign in (1.0, -1.0):
                tried = logs.copy()
                tried[body] += sign * step
                squares = _linear(times, temperatures, on, tuple(np.exp(tried)))[1]
                if squares < best:
                    best, logs, moved = squares, tried, True
                    break
        if not moved:
            step *= 0.5
        if step < 1e-9:
            break
    found = tuple(float(tau) for tau in np.sort(np.exp(logs)))
    if found[-1] > LONGEST * (times[-1] - times[0]):
        raise NotConverged(
            "the temperatures rise as good as straight: no time constant can be told",
            fix="Go on reading until the temperature stays, or at least bends.",
        )
    return found


LONGEST = 5.0
"""Spans of the log beyond which a time constant is no more than a straight line."""


def _with_covariance(
    times: Array, temperatures: Array, on: Array, linear: Array, taus: Sequence[float]
) -> Warming:
    columns = _columns(times, on, taus)
    slopes = []
    for body, tau in enumerate(taus):
        courses = [
            warmed_course(times=times, on=on, time_constant=tau * factor)
            for factor in (1.0 + 1e-4, 1.0 - 1e-4)
        ]
        slopes.append(linear[1 + body] * (courses[0] - courses[1]) / (2e-4 * tau))
    jacobian = np.column_stack([columns, *slopes])
    residuals = temperatures - columns @ linear
    squares = float((residuals**2).sum())
    dof = len(times) - jacobian.shape[1]
    along = float(residuals[1:] @ residuals[:-1] / squares) if squares > 0.0 else 0.0
    # neighbours that err alike are worth fewer readings
    worth = (1.0 + max(along, 0.0)) / (1.0 - min(max(along, 0.0), 0.95))
    covariance = np.linalg.pinv(jacobian.T @ jacobian) * squares / dof * worth
    return Warming(
        ambient=float(linear[0]),
        rises=tuple(float(rise) for rise in linear[1:]),
        time_constants=tuple(taus),
        covariance=covariance,
        residual=(squares / dof) ** 0.5,
        correlation=along,
        dof=float(dof),
        squares=squares,
        course=columns @ linear,
    )
