"""Evidence of causes of drift beside a loop over scipy and a general nested sampler.

Yardstick: sums over regular grids about the peak. The sampler (dynesty) is no part of the
environment; where it is absent its row is left out with a plain word. Seconds are those of the
processor, for all models together; the likelihood is the same for all.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from importlib import import_module
from importlib.util import find_spec
from time import process_time

import numpy as np
from drift import series
from figure import Figure
from scipy.integrate import cubature
from scipy.optimize import approx_fprime, minimize
from scipy.special import logsumexp, ndtri

from ozonewright.questions.drift import Rig
from ozonewright.questions.drift.evidence import log_prior
from ozonewright.questions.drift.model import log_likelihood
from ozonewright.questions.drift.models import Model, models_of
from ozonewright.questions.drift.posterior import weigh
from ozonewright.questions.drift.series import Array, readings_of
from ozonewright.questions.drift.setup import facts_of, setup_of

CAUSES = ("steady", "blank-surplus", "timing-surplus", "flow-creep", "cold-start")
POINTS = {2: 241, 3: 81, 4: 41}
"""Of the grid, along each parameter."""
REACH = 7.0
STARTS = 5
LIVE = 300
Likelihood = Callable[[Array], Array]
Found = tuple[float, Array, Array]
"""Log evidence by Laplace's formula, the peak, and the width of each parameter there."""


def _models() -> tuple[list[tuple[Model, Likelihood]], Callable[[Model], float]]:
    """Return the models with their likelihoods, and our own evidence of one."""
    runs = series(5)
    facts = facts_of(runs, Rig(), order=True)
    setup, readings = setup_of(runs, Rig(), facts), readings_of(runs)

    def of(model: Model) -> Likelihood:
        return lambda z: log_likelihood(setup, readings, model.theta(z))

    alone = [model for model in models_of(facts) if len(model.causes) == 1]
    first = {model.causes[0].name: model for model in reversed(alone)}
    chosen = [(first[name], of(first[name])) for name in CAUSES]
    return chosen, lambda model: weigh([model], setup, readings, 1)[0].evidence.log_z


def _peak(like: Likelihood, dimension: int) -> Found:
    """Return the best of a few climbs by scipy, with Laplace's formula there."""

    def cost(z: Array) -> float:
        return -float((like(z[None, :]) + log_prior(z[None, :]))[0])

    stream = np.random.default_rng(3)
    starts = [np.zeros(dimension), *stream.standard_normal((STARTS - 1, dimension))]
    best = min((minimize(cost, start) for start in starts), key=lambda one: float(one.fun))
    bent = approx_fprime(best.x, lambda z: approx_fprime(z, cost, 1e-4), 1e-4)
    bent = 0.5 * (bent + bent.T)
    _, size = np.linalg.slogdet(bent)
    log_z = -best.fun + 0.5 * dimension * np.log(2.0 * np.pi) - 0.5 * size
    return float(log_z), best.x, np.diag(np.linalg.inv(bent)) ** 0.5


def _cubature(like: Likelihood, found: Found) -> float:
    """Return log evidence by scipy's adaptive cubature about the peak."""
    _, peak, width = found
    top = float((like(peak[None, :]) + log_prior(peak[None, :]))[0])
    done = cubature(
        lambda z: np.exp(like(z) + log_prior(z) - top),
        peak - REACH * width,
        peak + REACH * width,
        rtol=0.02,
    )
    return top + float(np.log(done.estimate))


def _grid(like: Likelihood, found: Found) -> float:
    _, peak, width = found
    axes = [
        np.linspace(m - REACH * w, m + REACH * w, POINTS[len(peak)])
        for m, w in zip(peak, width, strict=True)
    ]
    mesh = np.stack([one.ravel() for one in np.meshgrid(*axes, indexing="ij")], axis=1)
    parts = [like(z) + log_prior(z) for z in np.array_split(mesh, max(len(mesh) // 20000, 1))]
    cell = np.prod([axis[1] - axis[0] for axis in axes])
    return float(logsumexp(np.concatenate(parts)) + np.log(cell))


def _nested(like: Likelihood, dimension: int) -> float:
    peer = import_module("dynesty")
    sampler = peer.NestedSampler(
        lambda z: float(like(z[None, :])[0]), ndtri, dimension,
        nlive=LIVE, sample="rwalk", rstate=np.random.default_rng(7),
    )  # fmt: skip
    sampler.run_nested(dlogz=0.05, print_progress=False)
    return float(sampler.results.logz[-1])


def _timed(told: Sequence[Callable[[], float]], exact: Sequence[float]) -> tuple[float, float]:
    """Return seconds, and the worst error in nats."""
    start = process_time()
    found = [one() for one in told]
    seconds = process_time() - start
    return seconds, float(np.abs(np.array(found) - exact).max())


def _rows(name: str, peer: tuple[float, float], ours: float) -> Iterator[Figure]:
    yield Figure(f"{name}: worst error", peer[1], "nat")
    yield Figure(f"{name}: time over ours", peer[0] / ours, "×")


def main() -> list[Figure]:
    """Return errors and times of each way, for five models of five runs."""
    chosen, own = _models()
    sizes = [len(model.parameters) for model, _ in chosen]
    peaks = [_peak(like, size) for (_, like), size in zip(chosen, sizes, strict=True)]
    exact = [_grid(like, peak) for (_, like), peak in zip(chosen, peaks, strict=True)]
    own(chosen[0][0])
    pairs = list(zip(chosen, sizes, strict=True))
    ours = _timed([lambda m=model: own(m) for (model, _), _ in pairs], exact)  # type: ignore[misc]
    laplace = _timed([lambda k=like, n=n: _peak(k, n)[0] for (_, like), n in pairs], exact)  # type: ignore[misc]
    cubed = _timed(
        [lambda k=like, n=n: _cubature(k, _peak(k, n)) for (_, like), n in pairs],  # type: ignore[misc]
        exact,
    )
    rows = [
        Figure("ours: worst error", ours[1], "nat", at_most=0.1),
        Figure("ours: five models", ours[0], "s"),
        *_rows("scipy, peak and Laplace's formula", laplace, ours[0]),
        *_rows("scipy, peak and adaptive cubature", cubed, ours[0]),
    ]
    if find_spec("dynesty") is None:
        print(
            "dynesty is not installed; the row of the nested sampler is left out", file=sys.stderr
        )
        return rows
    nested = _timed([lambda k=like, n=n: _nested(k, n) for (_, like), n in pairs], exact)  # type: ignore[misc]
    return [*rows, *_rows(f"dynesty, {LIVE} live points", nested, ours[0])]
