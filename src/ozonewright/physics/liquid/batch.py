"""Rodas4 over a time: one run by plain floats, or many draws at once, each with its own step."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotConverged
from ozonewright.physics.liquid.rodas import Step, System, rodas_step

Array = NDArray[np.float64]
MOST_STEPS = 4000
TOO_MANY = "the simulated run needs too many steps"
CHECK = "Check volumes, rate constants and flow for a slip of units."
SAFETY, LEAST, MOST = 0.9, 0.2, 6.0
"""Of a step's next length over its last."""
REFUSED = 1e6
"""Error told of a step that leads out of all numbers."""
STEEPEST = 0.25
"""Power of the error: a method of order four with a third-order estimate."""


@dataclass(frozen=True, slots=True)
class Tolerance:
    """What error a step may have."""

    relative: float
    absolute: Sequence[float]
    """Of each state, in its unit."""


def run_one(
    *, system: System, start: Sequence[float], times: Sequence[float], tolerance: Tolerance
) -> list[list[float]]:
    """One run, its states at given times.

    Parameters
    ----------
    system : System
        Rates and Jacobian, of plain numbers. [-]
    start : list of float
        The state at the first time. [-]
    times : list of float
        Rising; the first is the start. [-]
    tolerance : Tolerance
        Of each step. [-]

    Returns
    -------
    states : list of list of float
        For each time, the state. [-]

    Raises
    ------
    NotConverged
        Too many steps.

    Valid
    -----
    Stiff systems without time in them.

    Source
    ------
    hairer_1996
    """
    y, now, end = [float(one) for one in start], times[0], times[-1]
    out, following = [list(y)], 1
    h = 1e-6 * (end - now)
    for _ in range(MOST_STEPS):
        h = min(h, end - now)
        step = rodas_step(system=system, y=y, h=h)
        error = _error_of_one(step, tolerance)
        if error <= 1.0:
            while following < len(times) and times[following] <= now + h * (1.0 + 1e-12):
                out.append(step.at(min((times[following] - now) / h, 1.0)))
                following += 1
            if following == len(times):
                return out
            y, now = step.end, now + h
        h *= min(MOST, max(LEAST, SAFETY / max(error, 1e-12) ** STEEPEST))
    raise NotConverged(TOO_MANY, got=f"stopped at {now:.4g} s", fix=CHECK)


def _error_of_one(step: Step, tolerance: Tolerance) -> float:
    total = 0.0
    for a, b, error, least in zip(
        step.start, step.end, step.error, tolerance.absolute, strict=True
    ):
        size = least + tolerance.relative * max(abs(a), abs(b))
        total += (error / size) ** 2
    norm: float = (total / len(step.start)) ** 0.5
    return norm if isfinite(norm) else REFUSED


def run_batch(
    *,
    system: Callable[[Any], System],
    start: Array,
    times: Array,
    tolerance: Tolerance,
) -> Array:
    """Many runs at once, their states at given times.

    Parameters
    ----------
    system : callable
        The system of some draws, by their places. [-]
    start : array
        States by draws. [-]
    times : array
        Rising; the first is the start. [-]
    tolerance : Tolerance
        Of each step. [-]

    Returns
    -------
    states : array
        Times by states by draws. [-]

    Raises
    ------
    NotConverged
        Too many steps for some draw.

    Valid
    -----
    Stiff systems without time in them; every draw has its own step.

    Source
    ------
    hairer_1996
    """
    states, draws = start.shape
    out = np.empty((len(times), states, draws))
    out[0] = start
    where = np.arange(draws)
    y, now = start.copy(), np.full(draws, times[0])
    shortest = 1e-6 * (times[-1] - times[0])
    h = np.full(draws, shortest)
    following = np.ones(draws, dtype=int)
    made = system(slice(None))
    absolute = np.asarray(tolerance.absolute)[:, None]
    for _ in range(MOST_STEPS):
        # a draw that is done waits with a short step for the others
        h = np.where(following < len(times), np.minimum(h, times[-1] - now), shortest)
        with np.errstate(all="ignore"):
            # a step that leads out of all numbers is refused below
            step = rodas_step(system=made, y=y, h=h)
            size = absolute + tolerance.relative * np.maximum(np.abs(y), np.abs(step.end))
            error = np.sqrt(np.mean((step.error / size) ** 2, axis=0))
        error = np.where(np.isfinite(error), error, REFUSED)
        good = (error <= 1.0) & (following < len(times))
        following = _fill(out, step, good, where, following, (now, h, times))
        y = np.where(good, step.end, y)
        now = np.where(good, now + h, now)
        h = h * np.clip(SAFETY / np.maximum(error, 1e-12) ** STEEPEST, LEAST, MOST)
        busy = following < len(times)
        if not busy.any():
            return out
        if np.count_nonzero(busy) <= 0.7 * len(busy):
            where, y, now = where[busy], y[:, busy], now[busy]
            h, following = h[busy], following[busy]
            made = system(where)
    raise NotConverged(TOO_MANY, got=f"stopped at {now.min():.4g} s", fix=CHECK)


def _fill(
    out: Array,
    step: Step,
    good: NDArray[np.bool_],
    where: NDArray[np.int_],
    following: NDArray[np.int_],
    clock: tuple[Array, Array, Array],
) -> NDArray[np.int_]:
    """Write the states at the times that the good steps passed; return the next time of each."""
    now, h, times = clock
    beyond = np.searchsorted(times, now + h * (1.0 + 1e-12), side="right")
    beyond = np.where(good, np.maximum(beyond, following), following)
    passed = beyond - following
    draws = np.repeat(np.arange(len(passed)), passed)
    if not len(draws):
        return beyond
    # of each draw the times between where it was and where it is now
    place = np.arange(len(draws)) - np.repeat(np.cumsum(passed) - beyond, passed)
    share = np.minimum((times[place] - now[draws]) / h[draws], 1.0)
    out[place, :, where[draws]] = np.stack(step.of(draws).at(share)).T
    return beyond
