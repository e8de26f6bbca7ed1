"""From the runs to what is thought of a generator's unknowns after them: weighted draws.

The unknowns are standard normal deviations of the logarithm. For each of some sizes of scatter a
search finds where the others fit best; draws of Student t around these places, weighed by the exact
probability, are where walkers start. Each step of a walker is along the difference of two others.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ozonewright.questions.generator.lumped import Array, Lumped, unknowns_of
from ozonewright.questions.generator.model import modelled
from ozonewright.questions.generator.points import Point, TubeRun

SEARCHED = 25
SMALL = 1e-6
STEP = 1e-3
SCATTERS = (-1.5, -0.5, 0.5, 1.5, 2.5, 3.5)
"""Deviations of the scatter about which draws are made: few readings leave it open."""
BESIDE = 0.7
"""Standard deviation of the scatter in these draws."""
WIDER = 1.4
"""Variance of the draws over that at the best fit: what lies apart must not be missed."""
LEAST_SHARE = 0.04
"""Of the draws, for each scatter."""
FREEDOM = 6.0
"""Degrees of freedom of the draws: their tails must be heavier than those of what is sought."""
TRIED = 4000
ENOUGH = 0.1
"""Share of the draws that must carry weight where walkers start."""
WALKERS = 300
WALKED = 150
STRIDE = 2.38
"""Over the root of twice the unknowns: the best step along a difference (ter_braak_2006)."""
LEAP, EACH = 1.0, 10
"""Each so many steps, the whole difference, which reaches another hill."""
JITTER = 1e-3
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
    """Return what the runs leave open; `also` are points that will be asked for."""
    lumped = unknowns_of([*(run.point for run in runs), *also])
    random = np.random.default_rng(seed)
    draws, drawn = _drawn(random, _parts(lumped, runs))
    logarithms = _log_probability(lumped, runs, draws) - drawn
    weights = _weights(_tempered(logarithms) * logarithms)
    places = (np.arange(WALKERS) + 0.5) / WALKERS
    begun = draws[np.searchsorted(np.cumsum(weights), places)]
    kept, moved = _walked(lumped, runs, random, begun)
    centre = kept.mean(axis=0)
    covariance = np.asarray(np.cov(kept.T), np.float64) + LEAST * np.eye(len(centre))
    factor = np.asarray(np.linalg.cholesky(covariance), np.float64)
    return Fit(lumped, kept, np.asarray(centre, float), factor, moved, tuple(runs))


def _walked(
    lumped: Lumped, runs: Sequence[TubeRun], random: np.random.Generator, at: Array
) -> tuple[Array, float]:
    """Return where the walkers are at the end and midway, and the share of steps taken."""
    likely = _log_probability(lumped, runs, at)
    half = len(at) // 2
    sides = (np.arange(half), np.arange(half, len(at)))
    taken, midway = 0.0, at
    for step in range(WALKED):
        for mine, others in (sides, sides[::-1]):
            one, other = (at[random.permutation(others)] for _ in range(2))
            reach = LEAP if step % EACH == 0 else STRIDE / np.sqrt(2.0 * at.shape[1])
            jitter = JITTER * random.standard_normal((half, at.shape[1]))
            tried = at[mine] + reach * (one - other) + jitter
            there = _log_probability(lumped, runs, tried)
            goes = np.log(random.random(half)) < there - likely[mine]
            at[mine[goes]], likely[mine[goes]] = tried[goes], there[goes]
            taken += float(goes.mean()) / (2 * WALKED)
        if step == WALKED // 2:
            midway = at.copy()
    return np.vstack([midway, at]), taken


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


def _log_probability(lumped: Lumped, runs: Sequence[TubeRun], draws: Array) -> Array:
    possible = _possible(lumped, runs, draws)
    found = np.full(len(draws), -np.inf)
    chosen = draws[possible]
    variance = _spread(lumped, runs, chosen)
    misfit = _log_ratio(lumped, runs, chosen) ** 2 / variance + np.log(variance)
    found[possible] = -0.5 * (misfit.sum(axis=1) + (chosen**2).sum(axis=1))
    return found


def _possible(lumped: Lumped, runs: Sequence[TubeRun], draws: Array) -> NDArray[np.bool_]:
    """Return which draws may reach the model: no efficiency of 1, no gas that burns."""
    near = (np.abs(draws) < FARTHEST).all(axis=1)
    unknown = lumped.values(np.clip(draws, -FARTHEST, FARTHEST))
    power = max(run.point.power or 0.0 for run in runs)
    wall = max(run.point.wall or run.point.inlet for run in runs)
    warm = wall + power * unknown["warmth"][:, 0] + unknown["wall_rise"][:, 0]
    return np.asarray(near & (unknown["efficiency"][:, 0] < 1.0) & (warm < HOTTEST))


@dataclass(frozen=True, slots=True)
class _Part:
    """A place about which draws are made."""

    centre: Array
    factor: Array
    share: float


def _parts(lumped: Lumped, runs: Sequence[TubeRun]) -> list[_Part]:
    """Return the best fit for each size of scatter, weighed by what it is worth."""
    size, scatter = len(lumped.names), lumped.names.index("scatter")
    at, found, worth = np.zeros(size), [], []
    for deviation in SCATTERS:
        at[scatter] = deviation
        at, slope, weight, cost = _climbed(lumped, runs, at, scatter)
        normal = slope.T @ (weight[:, None] * slope) + np.eye(size)
        covariance = WIDER * np.linalg.inv(normal)
        covariance[scatter, scatter] = BESIDE**2
        factor = np.linalg.cholesky(covariance)
        found.append((at.copy(), factor))
        worth.append(np.log(np.diag(factor)).sum() - 0.5 * cost + 0.5 * np.log(weight).sum())
    shares = _weights(np.array(worth)) + LEAST_SHARE
    return [
        _Part(centre, factor, float(share))
        for (centre, factor), share in zip(found, shares / shares.sum(), strict=True)
    ]


def _climbed(
    lumped: Lumped, runs: Sequence[TubeRun], at: Array, fixed: int
) -> tuple[Array, Array, Array, float]:
    """Climb by Gauss and Newton with damping; return place, slopes, weights and cost."""
    size, damping = len(at), 1.0
    weight = 1.0 / _spread(lumped, runs, at[None, :])[0]
    value, slope = _linearised(lumped, runs, at)
    cost = _cost(value, weight, at)
    for _ in range(SEARCHED):
        normal = slope.T @ (weight[:, None] * slope) + np.eye(size)
        downhill = slope.T @ (weight * value) - at
        downhill[fixed] = 0.0
        there = at + np.linalg.solve(normal + damping * np.eye(size), downhill)
        moved = np.clip(there, -FARTHEST, FARTHEST)
        tried = _linearised(lumped, runs, moved)
        lower = _cost(tried[0], weight, moved)
        if lower < cost:
            small = cost - lower < SMALL
            (value, slope), at, cost, damping = tried, moved, lower, 0.3 * damping
            if small:
                break
        else:
            damping = 4.0 * damping + 0.1
    return at, slope, weight, cost


def _cost(value: Array, weight: Array, at: Array) -> float:
    return float((weight * value**2).sum() + (at**2).sum())


def _linearised(lumped: Lumped, runs: Sequence[TubeRun], at: Array) -> tuple[Array, Array]:
    """Return the misfit, and the slope of the model's logarithm, shape (runs, unknowns)."""
    steps = np.vstack([at, at + STEP * np.eye(len(at))])
    ratios = _log_ratio(lumped, runs, steps)
    slope = (ratios[0] - ratios[1:]).T / STEP
    # the scatter is no part of the model
    slope[:, lumped.names.index("scatter")] = 0.0
    return ratios[0], slope


def _drawn(random: np.random.Generator, parts: Sequence[_Part]) -> tuple[Array, Array]:
    """Return draws of all parts, and the logarithm of how likely each was, to a constant."""
    counts = [max(round(part.share * TRIED), 1) for part in parts]
    draws = np.vstack(
        [_student(random, part, count) for part, count in zip(parts, counts, strict=True)]
    )
    likely = np.stack(
        [
            _log_student(part, draws) + np.log(count)
            for part, count in zip(parts, counts, strict=True)
        ]
    )
    most = likely.max(axis=0)
    return draws, most + np.log(np.exp(likely - most).sum(axis=0))


def _student(random: np.random.Generator, part: _Part, count: int) -> Array:
    normal = random.standard_normal((count, len(part.centre)))
    normal /= np.sqrt(random.chisquare(FREEDOM, (count, 1)) / FREEDOM)
    found: Array = part.centre + normal @ part.factor.T
    return found


def _log_student(part: _Part, draws: Array) -> Array:
    normal = np.linalg.solve(part.factor, (draws - part.centre).T)
    far = np.log1p((normal**2).sum(axis=0) / FREEDOM)
    found: Array = -0.5 * (FREEDOM + len(part.centre)) * far - np.log(np.diag(part.factor)).sum()
    return found


def _tempered(logarithms: Array) -> float:
    """Return the highest power of the weights, up to 1, under which enough draws carry some.

    Walkers must start wider than they end, and apart from each other.
    """
    power = 1.0
    while (_weights(power * logarithms) ** 2).sum() * ENOUGH * len(logarithms) > 1.0:
        power *= 0.8
    return power


def _weights(logarithms: Array) -> Array:
    weights: Array = np.exp(logarithms - logarithms.max())
    return np.asarray(weights / weights.sum())
