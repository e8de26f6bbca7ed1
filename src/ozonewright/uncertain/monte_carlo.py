"""Propagation of distributions by Monte Carlo (JCGM 101)."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from math import erf, inf, sqrt
from typing import Any, overload

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotApplicable, OutOfBounds
from ozonewright.uncertain.inputs import HALF_WIDTHS, Measured, Shape
from ozonewright.uncertain.origins import ALONE, Correlation, Numeric, Origins, gather

DRAWS = 200_000
"""JCGM 101, 7.2.2: 10⁴ times 1/(1 - coverage) draws, for a coverage of 95 %."""
CHUNK = 1 << 14
"""Draws evaluated at once: small enough for the processor's cache, whatever the total."""


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """What the draws of one output say, in the unit of the output.

    `interval` is probabilistically symmetric (as much chance below as above); `draws` has shape
    (draws,). Mean and u mean nothing if an input is a Student t of 2 or fewer degrees of freedom.
    """

    mean: float
    u: float
    interval: tuple[float, float]
    draws: NDArray[np.float64]


@overload
def monte_carlo(
    function: Callable[..., Mapping[str, Numeric]],
    inputs: Mapping[str, Measured],
    *,
    draws: int = ...,
    seed: int = ...,
    correlation: Correlation | None = ...,
    coverage: float = ...,
) -> Mapping[str, Samples]: ...
@overload
def monte_carlo(
    function: Callable[..., Numeric],
    inputs: Mapping[str, Measured],
    *,
    draws: int = ...,
    seed: int = ...,
    correlation: Correlation | None = ...,
    coverage: float = ...,
) -> Samples: ...
def monte_carlo(
    function: Callable[..., Any],
    inputs: Mapping[str, Measured],
    *,
    draws: int = DRAWS,
    seed: int = 0,
    correlation: Correlation | None = None,
    coverage: float = 0.95,
) -> Samples | Mapping[str, Samples]:
    """Draw the inputs from their stated shapes and say what the outputs do.

    Parameters
    ----------
    function : callable
        Pure and broadcasting, of the keys of `inputs`; returns a number or a mapping of numbers.
    inputs : mapping of Measured
        Inputs by the key the function knows them by.
    draws : int
        How often. A function that solves something may take some hundred.
    seed : int
        Same seed and same names, same draws: also across calls that share an input.
    correlation : mapping
        Coefficient by pair of input *names*. Tied inputs follow a Gaussian copula: exact for
        normal inputs, a multivariate t for inputs of equal finite dof; for bounded shapes the
        coefficient drawn is up to 0.05 nearer to zero than the one stated.
    coverage : float
        Probability that the interval holds. [1]

    Returns
    -------
    samples : Samples or mapping of Samples
        As the function returned a number or a mapping.

    Raises
    ------
    OutOfBounds
        Too few draws for the coverage.
    NotApplicable
        The function has no finite value for some draws.
    """
    origins = gather(inputs, correlation)
    samples, bare = simulate(function, origins, draws=draws, seed=seed, coverage=coverage)
    return samples[ALONE] if bare else samples


def simulate(
    function: Callable[..., Any],
    origins: Origins,
    *,
    draws: int,
    seed: int,
    coverage: float,
    only: Collection[str] | None = None,
) -> tuple[dict[str, Samples], bool]:
    """Do the work of `monte_carlo` on inputs already gathered, for all outputs or some."""
    if draws * (1.0 - coverage) < 10.0:
        raise OutOfBounds(
            "too few draws to see the ends of the interval",
            where="draws",
            got=f"{draws}",
            fix=f"Use at least {10.0 / (1.0 - coverage):.0f}.",
        )
    streams = [
        np.random.default_rng([seed, *origins.inputs[block[0]].name.encode()])
        for block in origins.blocks
    ]
    kept: dict[str, NDArray[np.float64]] = {}
    bare = False
    for start in range(0, draws, CHUNK):
        count = min(CHUNK, draws - start)
        deviation = np.empty((len(origins.inputs), count))
        for block, stream in zip(origins.blocks, streams, strict=True):
            _draw(deviation, origins, block, stream)
        outputs, bare = origins.call(function, deviation)
        for name, values in outputs.items():
            if only is not None and name not in only:
                continue
            _refuse_missing(values, deviation, origins, name)
            kept.setdefault(name, np.empty(draws))[start : start + count] = values
    return {name: _summary(values, coverage) for name, values in kept.items()}, bare


def has_moments(measured: Measured) -> bool:
    """Say whether what is drawn for an input has a standard deviation (Student t above dof 2)."""
    return measured.shape != "normal" or measured.dof > 2.0


def _summary(values: NDArray[np.float64], coverage: float) -> Samples:
    """Return mean, standard deviation and the symmetric interval of JCGM 101, 7.6 and 7.7."""
    held = int(coverage * len(values) + 0.5)
    first = (len(values) - held + 1) // 2 - 1
    mean, u = float(values.mean()), float(values.std(ddof=1))
    # np.quantile would load numpy.ma, 7 ms for two sorted places.
    placed = np.partition(values, [first, first + held])
    return Samples(mean, u, (float(placed[first]), float(placed[first + held])), values)


def _draw(
    deviation: NDArray[np.float64],
    origins: Origins,
    block: tuple[int, ...],
    stream: np.random.Generator,
) -> None:
    """Fill the rows of one block with deviations in standard uncertainties."""
    count: int = deviation.shape[1]
    if len(block) == 1:
        (i,) = block
        measured = origins.inputs[i]
        if measured.shape != "normal":
            deviation[i] = _bounded(measured.shape, stream.random(count))
        elif measured.dof == inf:
            stream.standard_normal(out=deviation[i])
        else:
            deviation[i] = stream.standard_t(measured.dof, count)
        return
    root = origins.root[list(block)]
    normal = root @ stream.standard_normal((root.shape[1], count))
    spread: dict[float, NDArray[np.float64]] = {}
    for row, i in enumerate(block):
        measured, z = origins.inputs[i], normal[row]
        if measured.shape != "normal":
            deviation[i] = _bounded(measured.shape, _probability(z))
        elif measured.dof == inf:
            deviation[i] = z
        else:
            # One χ² for all inputs of equal dof: readings taken together, a multivariate t.
            if measured.dof not in spread:
                spread[measured.dof] = np.sqrt(measured.dof / stream.chisquare(measured.dof, count))
            deviation[i] = z * spread[measured.dof]


def _bounded(shape: Shape, probability: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the quantile of a bounded shape of unit standard deviation."""
    half = HALF_WIDTHS[shape]
    if shape == "rectangular":
        return half * (2.0 * probability - 1.0)
    if shape == "arcsine":
        return -half * np.cos(np.pi * probability)
    side = np.minimum(probability, 1.0 - probability)
    return np.copysign(half * (1.0 - np.sqrt(2.0 * side)), probability - 0.5)


def _probability(z: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the normal probability below z (numpy has no error function)."""
    return np.array([0.5 * (1.0 + erf(one / sqrt(2.0))) for one in z])


def _refuse_missing(
    values: NDArray[np.float64], deviation: NDArray[np.float64], origins: Origins, output: str
) -> None:
    missing = ~np.isfinite(values)
    if not missing.any():
        return
    # The input that is farthest out where the function fails is the one to look at.
    size = np.abs(deviation[:, missing]).mean(axis=1)
    worst = int(np.argmax(size)) if len(size) else -1
    of = f" of {output}" if output else ""
    raise NotApplicable(
        f"the calculation{of} has no finite value for some draws of its inputs",
        where=origins.names([worst] if worst >= 0 else []),
        got=f"{int(missing.sum())} of {len(values)} draws",
        fix="Measure this input better: its uncertainty reaches where the formula has no meaning.",
    )
