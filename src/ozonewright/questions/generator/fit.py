"""From the runs to what is thought of a generator's unknowns after them: equally likely draws.

The unknowns are standard normal deviations of the logarithm. Draws of what was thought beforehand
are led to the runs in stages, in each of which the runs count a little more: draws that fit are
kept more often, then all walk, each step along the difference of two others. A search uphill alone
would miss what lies along the ridge, and hills apart: gas that is hot, or poisoned, or undone by
the discharge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotConverged
from ozonewright.questions.generator.lumped import Array, Lumped, unknowns_of
from ozonewright.questions.generator.model import modelled
from ozonewright.questions.generator.points import Point, TubeRun

KEPT = 500
"""Draws."""
THOUGHT = 4
"""Times as many are made of what was thought beforehand."""
ENOUGH = 0.5
"""Share of the draws that must carry weight in each stage."""
WALKED, AT_LAST = 10, 40
"""Steps in each stage, and in the last."""
STRIDE = 2.38
"""Over the root of twice the unknowns: the best step along a difference (ter_braak_2006)."""
SHORTER = (1.0, 0.5, 0.25)
"""Of that step, in turn: along a bent ridge the best one is seldom taken."""
LEAP, EACH = 1.0, 10
"""Each so many steps, the whole difference, which reaches another hill."""
JITTER = 1e-3
HALVED = 60
"""Times that the reach of a stage is halved."""
FARTHEST = 4.5
"""Deviations beyond which nothing is thought possible."""
HOTTEST = 600.0
"""K: gas in which no ozone lasts can't be that of a run that gave some (from memory)."""
LEAST = 1e-9
"""Added to each variance, so that a square root exists."""


@dataclass(frozen=True, slots=True)
class Fit:
    """What is thought after the runs."""

    lumped: Lumped
    draws: Array
    """Deviations, equally likely, shape (draws, unknowns)."""
    centre: Array
    factor: Array
    """Lower triangle whose square is the covariance of the deviations."""
    moved: float
    """Share of the walkers' steps that were taken. [1]"""
    runs: tuple[TubeRun, ...]


def fitted(runs: Sequence[TubeRun], also: Sequence[Point] = (), seed: int = 0) -> Fit:
    """Return what the runs leave open; `also` are points that will be asked for.

    Raises
    ------
    NotConverged
        No generator that is thought of beforehand could have made the runs.
    """
    lumped = unknowns_of([*(run.point for run in runs), *also])
    random = np.random.default_rng(seed)
    kept, moved = _led(lumped, runs, random)
    centre = kept.mean(axis=0)
    covariance = np.asarray(np.cov(kept.T), np.float64) + LEAST * np.eye(len(centre))
    factor = np.asarray(np.linalg.cholesky(covariance), np.float64)
    return Fit(lumped, kept, np.asarray(centre, float), factor, moved, tuple(runs))


def _led(
    lumped: Lumped, runs: Sequence[TubeRun], random: np.random.Generator
) -> tuple[Array, float]:
    """Return draws led from thoughts beforehand to the runs, and the share of steps taken."""
    at = random.standard_normal((THOUGHT * KEPT, len(lumped.names)))
    likely = _log_likely(lumped, runs, at)
    able = np.isfinite(likely)
    if not able.any():
        raise NotConverged(
            "no generator that is thought of could have made these runs",
            where="runs",
            got=f"{len(runs)} runs",
            fix="Look at power, flow and tube temperature of each; a unit may be wrong.",
        )
    at, likely, counted, taken = at[able], likely[able], 0.0, 0.0
    while counted < 1.0:
        more = _reach(likely, 1.0 - counted)
        counted = 1.0 if more >= 1.0 - counted else counted + more
        chosen = _chosen(random, _weights(more * likely))
        at, likely = at[chosen], likely[chosen]
        steps = WALKED if counted < 1.0 else AT_LAST
        taken = _walked(lumped, runs, random, at, likely, counted, steps)
    return at, taken


def _reach(likely: Array, most: float) -> float:
    """Return how much more the runs may count before too few draws carry weight."""

    enough = ENOUGH * min(len(likely), KEPT)

    def carries(more: float) -> bool:
        weights = _weights(more * likely)
        return bool((weights**2).sum() * enough <= 1.0)

    if carries(most):
        return most
    low, high = 0.0, most
    for _ in range(HALVED):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if carries(middle) else (low, middle)
    return high


def _chosen(random: np.random.Generator, weights: Array) -> NDArray[np.int64]:
    """Return places of draws, each as often as its weight says."""
    places = (np.arange(KEPT) + random.random()) / KEPT
    found = np.searchsorted(np.cumsum(weights), places)
    return np.asarray(np.minimum(found, len(weights) - 1), np.int64)


def _walked(
    lumped: Lumped,
    runs: Sequence[TubeRun],
    random: np.random.Generator,
    at: Array,
    likely: Array,
    counted: float,
    steps: int,
) -> float:
    """Walk all draws in place, and return the share of steps taken."""
    taken, half, size = 0.0, len(at) // 2, at.shape[1]
    for step in range(steps):
        mixed = random.permutation(len(at))
        sides = (mixed[:half], mixed[half:])
        whole = step % EACH == EACH - 1
        shorter = SHORTER[step % len(SHORTER)]
        reach = LEAP if whole else shorter * STRIDE / np.sqrt(2.0 * size)
        for mine, others in (sides, sides[::-1]):
            one, other = (at[random.choice(others, len(mine))] for _ in range(2))
            jitter = JITTER * random.standard_normal((len(mine), size))
            tried = at[mine] + reach * (one - other) + jitter
            there = _log_likely(lumped, runs, tried)
            thought = 0.5 * ((at[mine] ** 2).sum(axis=1) - (tried**2).sum(axis=1))
            goes = np.log(random.random(len(mine))) < counted * (there - likely[mine]) + thought
            at[mine[goes]], likely[mine[goes]] = tried[goes], there[goes]
            taken += float(goes.mean()) / (2 * steps)
    return taken


def _log_ratio(lumped: Lumped, runs: Sequence[TubeRun], draws: Array) -> Array:
    """Return measured over modelled as a logarithm, shape (draws, runs)."""
    measured = np.array([run.rate.value for run in runs])
    made = modelled(lumped, draws, [run.point for run in runs]).rate
    found: Array = np.log(measured / made)
    return found


def _spread(lumped: Lumped, runs: Sequence[TubeRun], draws: Array) -> Array:
    """Return the variance of each run's logarithm, shape (draws, runs)."""
    read = np.array([run.rate.u / run.rate.value for run in runs])
    scatter: Array = lumped.values(draws)["scatter"] ** 2 + read**2
    return scatter


def _log_likely(lumped: Lumped, runs: Sequence[TubeRun], draws: Array) -> Array:
    """Return how likely the runs are with each draw, as a logarithm, to a constant."""
    possible = _possible(lumped, runs, draws)
    found = np.full(len(draws), -np.inf)
    chosen = draws[possible]
    variance = _spread(lumped, runs, chosen)
    misfit = _log_ratio(lumped, runs, chosen) ** 2 / variance + np.log(variance)
    found[possible] = -0.5 * misfit.sum(axis=1)
    return found


def _possible(lumped: Lumped, runs: Sequence[TubeRun], draws: Array) -> NDArray[np.bool_]:
    """Return which draws may reach the model: no efficiency of 1, no gas that burns."""
    near = (np.abs(draws) < FARTHEST).all(axis=1)
    unknown = lumped.values(np.clip(draws, -FARTHEST, FARTHEST))
    power = max(run.point.power or 0.0 for run in runs)
    wall = max(run.point.wall or run.point.inlet for run in runs)
    warm = wall + power * unknown["warmth"][:, 0] + unknown["wall_rise"][:, 0]
    return np.asarray(near & (unknown["efficiency"][:, 0] < 1.0) & (warm < HOTTEST))


def _weights(logarithms: Array) -> Array:
    weights: Array = np.exp(logarithms - logarithms.max())
    return np.asarray(weights / weights.sum())
