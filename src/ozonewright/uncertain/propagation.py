"""Uncertainty of a result from the uncertainties of its inputs (JCGM 100 and JCGM 101)."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import inf
from typing import Any, Literal, overload

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotApplicable
from ozonewright.uncertain.expansion import Expansion, expand
from ozonewright.uncertain.inputs import Measured
from ozonewright.uncertain.monte_carlo import Samples, has_moments, simulate
from ozonewright.uncertain.origins import ALONE, Correlation, Numeric, Origins, gather
from ozonewright.uncertain.student import coverage_factor

Method = Literal["first order", "Monte Carlo"]
QUICK_DRAWS = 50_000
"""Enough to place an end of a 95 % interval to about 0.012 u, below the second figure of u.

JCGM 101, 7.2.1 takes four times as many where nothing is known of the result, and 7.9 stops once
the figures that matter stand still.
"""


@dataclass(frozen=True, slots=True)
class Share:
    """What one input, by name, brings to the variance of one output.

    `sensitivity` is the change of the output per change of the input, across ±u. Under a stated
    correlation a share may be negative; the shares of one output sum to 100.
    """

    input: str
    share_percent: float
    sensitivity: float


@dataclass(frozen=True, slots=True)
class Estimate:
    """One output with its uncertainty, in SI.

    Parameters
    ----------
    value : float
        The function at the best estimates (JCGM 100, 4.1.4): what a pocket calculator gives.
    u : float
        One standard uncertainty.
    dof : float
        Effective degrees of freedom of first order; not cut to a whole number. [1]
    interval : tuple of float
        Coverage interval, 95 % unless asked otherwise; not centred on `value` with Monte Carlo.
    k : float
        Half the interval over u. [1]
    method : Method
        Monte Carlo where first order is not good enough for the interval.
    budget : tuple of Share
        One share per uncertain input, the largest first; empty for an exact result.
    shift : float
        Mean of the draws less `value`: what curvature does to the mean. Zero with first order.
    """

    value: float
    u: float
    dof: float
    interval: tuple[float, float]
    k: float
    method: Method
    budget: tuple[Share, ...]
    shift: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Propagated(Mapping[str, Estimate]):
    """The outputs of one call; they share inputs and so have covariances."""

    estimates: Mapping[str, Estimate]
    matrix: NDArray[np.float64]
    """Covariances in the order of the outputs, shape (outputs, outputs)."""

    def __getitem__(self, output: str) -> Estimate:
        """Return one output."""
        return self.estimates[output]

    def __iter__(self) -> Iterator[str]:
        """Iterate over the names of the outputs."""
        return iter(self.estimates)

    def __len__(self) -> int:
        """Return the number of outputs."""
        return len(self.estimates)

    def covariance(self, a: str, b: str) -> float:
        """Return the covariance of two outputs, in the product of their units."""
        order = list(self.estimates)
        return float(self.matrix[order.index(a), order.index(b)])

    def correlation(self, a: str, b: str) -> float:
        """Return the correlation coefficient of two outputs. [1]"""
        scale = self[a].u * self[b].u
        if scale == 0.0:
            raise NotApplicable(
                "an exact result has no correlation",
                where=a if self[a].u == 0.0 else b,
                fix="Ask for the covariance, which is zero.",
            )
        return self.covariance(a, b) / scale


@overload
def propagate(
    function: Callable[..., Mapping[str, Numeric]],
    inputs: Mapping[str, Measured],
    *,
    correlation: Correlation | None = ...,
    coverage: float = ...,
    draws: int = ...,
    seed: int = ...,
) -> Propagated: ...
@overload
def propagate(
    function: Callable[..., Numeric],
    inputs: Mapping[str, Measured],
    *,
    correlation: Correlation | None = ...,
    coverage: float = ...,
    draws: int = ...,
    seed: int = ...,
) -> Estimate: ...
def propagate(
    function: Callable[..., Any],
    inputs: Mapping[str, Measured],
    *,
    correlation: Correlation | None = None,
    coverage: float = 0.95,
    draws: int = QUICK_DRAWS,
    seed: int = 0,
) -> Estimate | Propagated:
    """Return the outputs of a function of measured inputs, with uncertainty and budget.

    Parameters
    ----------
    function : callable
        Pure and broadcasting, of the keys of `inputs`; returns a number or a mapping of numbers.
    inputs : mapping of Measured
        Inputs by the key the function knows them by. One without uncertainty is exact.
    correlation : mapping
        Coefficient by pair of input *names*; pairs not named are independent. [1]
    coverage : float
        Probability that each interval holds. [1]
    draws, seed : int
        For Monte Carlo, which runs when curvature moves an end of an interval by more than a
        tenth of u. A straight function stays with first order even if one bounded shape outweighs
        the rest: that interval is then wider than it need be (JCGM 101, 9.2.4), never narrower.

    Returns
    -------
    outputs : Estimate or Propagated
        As the function returned a number or a mapping. Covariances are J V Jᵀ; once Monte Carlo
        ran, of second order and brought to the u of each output.

    Raises
    ------
    NotApplicable
        The function has no finite value at or near the inputs.
    InputError
        One name with two readings, or correlations that can't hold.
    """
    origins = gather(inputs, correlation)
    expansions, bare = expand(function, origins)
    straight = {
        name: expansion.is_straight(origins, coverage) for name, expansion in expansions.items()
    }
    samples: Mapping[str, Samples] = {}
    if curved := {name for name, holds in straight.items() if not holds}:
        samples, _ = simulate(
            function, origins, draws=draws, seed=seed, coverage=coverage, only=curved
        )
    estimates = {
        name: _straight(expansion, origins, coverage)
        if straight[name]
        else _curved(expansion, origins, samples[name])
        for name, expansion in expansions.items()
    }
    if bare:
        return estimates[ALONE]
    return Propagated(estimates, _covariances(estimates, expansions, origins))


def _straight(expansion: Expansion, origins: Origins, coverage: float) -> Estimate:
    u, dof = expansion.u(origins), expansion.dof(origins)
    k = coverage_factor(coverage, dof)
    return Estimate(
        value=expansion.value,
        u=u,
        dof=dof,
        interval=(expansion.value - k * u, expansion.value + k * u),
        k=k,
        method="first order",
        budget=_budget(expansion, origins, second=False),
    )


def _curved(expansion: Expansion, origins: Origins, samples: Samples) -> Estimate:
    if all(has_moments(measured) for measured in origins.inputs):
        u, shift = samples.u, samples.mean - expansion.value
    else:
        # Draws of such a t have no standard deviation; quantiles they have.
        u, shift = expansion.u_second(origins), 0.0
    low, high = samples.interval
    return Estimate(
        value=expansion.value,
        u=u,
        dof=expansion.dof(origins),
        interval=samples.interval,
        k=(high - low) / (2.0 * u) if u > 0.0 else inf,
        method="Monte Carlo",
        budget=_budget(expansion, origins, second=True),
        shift=shift,
    )


def _budget(expansion: Expansion, origins: Origins, *, second: bool) -> tuple[Share, ...]:
    parts = expansion.shares(origins, second=second)
    if not parts.any():
        return ()
    shares = (
        Share(measured.name, 100.0 * float(part), float(slope) / measured.u)
        for measured, part, slope in zip(origins.inputs, parts, expansion.slope, strict=True)
    )
    return tuple(sorted(shares, key=lambda share: -abs(share.share_percent)))


def _covariances(
    estimates: Mapping[str, Estimate], expansions: Mapping[str, Expansion], origins: Origins
) -> NDArray[np.float64]:
    """Return J V Jᵀ, or with Monte Carlo the same to second order, brought to the u stated."""
    slopes = np.array([expansion.slope for expansion in expansions.values()])
    matrix = np.asarray(slopes @ origins.correlation @ slopes.T)
    if all(estimate.method == "first order" for estimate in estimates.values()):
        return matrix
    # Exact for a quadratic function of normal inputs; a function flat at its inputs has no J.
    tied = np.array(
        [expansion.curvature @ origins.correlation for expansion in expansions.values()]
    )
    matrix += 0.5 * np.einsum("aij,bji->ab", tied, tied)
    found = np.sqrt(np.diag(matrix))
    stated = np.array([estimate.u for estimate in estimates.values()])
    scale = np.divide(stated, found, out=np.zeros_like(stated), where=found > 0.0)
    return np.asarray(matrix * np.outer(scale, scale))


def alone(value: Measured | None) -> Estimate | None:
    """Return a value as it was measured, with its interval; None stays None."""
    if value is None:
        return None
    estimate: Estimate = propagate(lambda value: value, {"value": value})
    return estimate
