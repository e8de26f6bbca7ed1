"""Draws of quantities that can't be negative, however wide their uncertainty is."""

from __future__ import annotations

from math import log, log1p, sqrt

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import OutOfBounds
from ozonewright.uncertain.inputs import HALF_WIDTHS, Measured
from ozonewright.uncertain.propagation import Estimate, Share

DRAWS = 10_000


def positive_draws(
    measured: Measured, *, draws: int = DRAWS, seed: int = 0
) -> NDArray[np.float64] | float:
    """Return draws of a positive quantity: its value alone where it is exact.

    Parameters
    ----------
    measured : Measured
        Zero or above; zero is taken as exact, since nothing lies below it. A normal one is drawn
        log-normal with the same mean and the same standard uncertainty, so that none is negative;
        a bounded one uniform within its limits, from zero.
    draws, seed : int
        How often; same seed and same name, same draws.

    Returns
    -------
    draws : array or float
        Shape (draws,).

    Raises
    ------
    OutOfBounds
        The value is negative.
    """
    value, u = measured.value, measured.u
    if value < 0.0:
        raise OutOfBounds(
            "can't be negative", where=measured.name, got=f"{value:g}", fix="Check its sign."
        )
    if u == 0.0 or value == 0.0:
        return value
    stream = np.random.default_rng([seed, *measured.name.encode()])
    if measured.shape != "normal":
        width = u * HALF_WIDTHS["rectangular"]
        return stream.uniform(value - width if value > width else 0.0, value + width, draws)
    spread = log1p((u / value) ** 2)
    drawn = np.exp(log(value) - spread / 2.0 + sqrt(spread) * stream.standard_normal(draws))
    return np.asarray(drawn)


def estimate_of(
    value: float,
    draws: NDArray[np.float64],
    inputs: dict[str, NDArray[np.float64] | float],
    *,
    coverage: float = 0.95,
) -> Estimate:
    """Return what the draws of a result say beside its value at the best estimates.

    Parameters
    ----------
    value : float
        The result at the best estimates.
    draws : array
        The result for each draw of the inputs.
    inputs : mapping
        The draws of each input by its name; the share of an input is the square of its rank
        correlation with the result, brought to a sum of 100.
    coverage : float
        Probability of the interval, as much above it as below. [1]

    Returns
    -------
    estimate : Estimate
        By Monte Carlo.
    """
    tail = (1.0 - coverage) / 2.0
    low, high = (float(end) for end in np.quantile(draws, (tail, 1.0 - tail)))
    u = float(np.std(draws))
    return Estimate(
        value=value,
        u=u,
        dof=float("inf"),
        interval=(low, high),
        k=(high - low) / (2.0 * u) if u > 0.0 else float("inf"),
        method="Monte Carlo",
        budget=_shares(draws, inputs) if u > 0.0 else (),
        shift=float(np.mean(draws)) - value,
    )


def _shares(
    draws: NDArray[np.float64], inputs: dict[str, NDArray[np.float64] | float]
) -> tuple[Share, ...]:
    ranks = _ranks(draws)
    # what does not vary has ranks all the same, and no share in anything
    varied = {
        name: drawn
        for name, drawn in inputs.items()
        if isinstance(drawn, np.ndarray) and np.var(drawn) > 0.0
    }
    squares = {
        name: float(np.corrcoef(_ranks(drawn), ranks)[0, 1] ** 2) for name, drawn in varied.items()
    }
    total = sum(squares.values())
    slopes = {
        name: float(np.cov(drawn, draws)[0, 1] / np.var(drawn, ddof=1))
        for name, drawn in varied.items()
    }
    found = (Share(name, 100.0 * part / total, slopes[name]) for name, part in squares.items())
    return tuple(sorted(found, key=lambda share: -share.share_percent))


def _ranks(values: NDArray[np.float64]) -> NDArray[np.float64]:
    ranks = np.empty(len(values))
    ranks[np.argsort(values)] = np.arange(len(values))
    return ranks
