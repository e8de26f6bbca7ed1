"""Evidence and posterior by importance sampling; knows no chemistry.

Every parameter is a map from a standard normal, so the prior of all is the same. A first cloud is
given; mixtures of Student t kernels on a tempered cloud, with a tenth of the prior, follow until
the standard error of the logarithm of the evidence is small.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import lgamma

import numpy as np

from ozonewright.questions.drift.series import Array

DRAWS, KERNELS = 1024, 64
ROUNDS, MOST_ROUNDS = 2, 6
MORE = 3
"""Times the draws and kernels of a round that two rounds have shown to be needed."""
DOF = 5.0
FROM_PRIOR = 0.1
ENOUGH = 0.1
"""Standard error of log evidence above which another round is drawn."""
LEAST_EFFECTIVE = 48.0
"""Effective draws that a tempered cloud must keep."""
NOT_WORTH = 12.0
"""Nats above `hopeless` below which an evidence is not worth more draws."""
LOG_2PI = float(np.log(2.0 * np.pi))


@dataclass(frozen=True, slots=True)
class Evidence:
    """The evidence, and draws with their weights."""

    log_z: float
    u_log_z: float
    z: Array
    """Shape (draws, dimension)."""
    log_weight: Array
    """Target over proposal, not normed; shape (draws,)."""
    log_likelihood: Array


def log_prior(z: Array) -> Array:
    """Return the logarithm of the standard normal density of each draw."""
    return np.asarray(-0.5 * ((z**2).sum(axis=1) + z.shape[1] * LOG_2PI))


def log_mean(log_weight: Array) -> tuple[float, float]:
    """Return the logarithm of the mean weight, and its standard error."""
    most = float(log_weight.max())
    if not np.isfinite(most):
        return -np.inf, np.inf
    weight = np.exp(log_weight - most)
    mean = float(weight.mean())
    error = float(weight.std(ddof=1)) / (mean * len(weight) ** 0.5)
    return most + float(np.log(mean)), error


def sampled(
    log_likelihood: Callable[[Array], Array],
    first: Sequence[tuple[Array, Array]],
    stream: np.random.Generator,
    hopeless: float = -np.inf,
) -> Evidence:
    """Return evidence and posterior of a likelihood under a standard normal prior.

    `first` holds clouds: draws, and the logarithm of the density that each cloud was drawn from.
    Where they find no likelihood above `hopeless`, their own rough estimate is returned; where a
    mixture finds an evidence well below what `hopeless` leaves in question, no more are drawn.
    """
    z = np.concatenate([cloud for cloud, _ in first])
    like = log_likelihood(z)
    log_weight = log_prior(z) + like - np.concatenate([log_q for _, log_q in first])
    found = None
    if like.max() < hopeless:
        log_z, error = log_mean(log_weight)
        return Evidence(log_z, error, z, log_weight, like)
    for turn in range(1, MOST_ROUNDS + 1):
        z, log_q = _mixture(z, log_weight, stream, MORE if turn > ROUNDS else 1)
        like = log_likelihood(z)
        log_weight = log_prior(z) + like - log_q
        log_z, error = log_mean(log_weight)
        if found is None or error < found.u_log_z or turn == ROUNDS:
            found = Evidence(log_z, error, z, log_weight, like)
        if turn >= ROUNDS and (error < ENOUGH or log_z < hopeless + NOT_WORTH):
            break
    assert found is not None
    return found


def _tempered(log_weight: Array) -> Array:
    """Return weights flattened until enough draws count."""
    power = 1.0
    finite = np.where(np.isfinite(log_weight), log_weight, -1e300)
    for _ in range(40):
        weight = np.exp(power * (finite - finite.max()))
        weight /= weight.sum()
        if 1.0 / float((weight**2).sum()) >= LEAST_EFFECTIVE:
            break
        power *= 0.7
    return np.asarray(weight)


def _mixture(
    z: Array, log_weight: Array, stream: np.random.Generator, more: int
) -> tuple[Array, Array]:
    """Draw from kernels on the tempered cloud and from the prior; return the mixture's density."""
    dimension = z.shape[1]
    count, draws = KERNELS * more, DRAWS * more
    weight = _tempered(log_weight)
    steps = (np.arange(count) + stream.random()) / count
    chosen = np.searchsorted(np.cumsum(weight), steps).clip(max=len(weight) - 1)
    centres = z[chosen]
    off = z - weight @ z
    spread = (off * weight[:, None]).T @ off + 1e-8 * np.eye(dimension)
    width = (4.0 / (dimension + 2.0)) ** (1.0 / (dimension + 4.0))
    width *= count ** (-1.0 / (dimension + 4.0))
    root = np.linalg.cholesky(spread) * width
    own = round(draws * FROM_PRIOR)
    normal = stream.standard_normal((draws, dimension))
    chi = stream.chisquare(DOF, draws - own)
    kernel = centres[np.arange(draws - own) % count]
    drawn = kernel + (normal[own:] / np.sqrt(chi / DOF)[:, None]) @ root.T
    z = np.concatenate([normal[:own], drawn])
    return z, _log_density(z, centres, root)


def _log_density(z: Array, centres: Array, root: Array) -> Array:
    """Return the logarithm of the density of the mixture of kernels and prior.

    The distances need no more than single precision: an error of 1e-4 in one of them is one of
    1e-4 in a weight, and there are a thousand draws.
    """
    dimension = z.shape[1]
    inverse = np.linalg.inv(root).T
    middle = centres.mean(axis=0)
    a = ((z - middle) @ inverse).astype(np.float32)
    b = ((centres - middle) @ inverse).astype(np.float32)
    square = a @ b.T
    square *= np.float32(-2.0 / DOF)
    square += ((a**2).sum(axis=1) / np.float32(DOF))[:, None]
    square += (b**2).sum(axis=1) / np.float32(DOF)
    np.maximum(square, np.float32(0.0), out=square)
    square += np.float32(1.0)
    np.reciprocal(square, out=square)
    heights = _half_power(square, round(DOF) + dimension).mean(axis=1, dtype=np.float64)
    norm = _log_norm(dimension) - float(np.log(np.diag(root)).sum())
    kernels = np.log(np.maximum(heights, TINY)) + norm
    return np.asarray(
        np.logaddexp(np.log(1.0 - FROM_PRIOR) + kernels, np.log(FROM_PRIOR) + log_prior(z))
    )


TINY = 1e-300
"""Stands for a kernel density that single precision lost: the prior's is far above it there."""


def t_log_density(z: Array, centre: Array, root: Array) -> Array:
    """Return the logarithm of the density of one kernel."""
    dimension = z.shape[1]
    square = (((z - centre) @ np.linalg.inv(root).T) ** 2).sum(axis=1)
    norm = _log_norm(dimension) - float(np.log(np.diag(root)).sum())
    return np.asarray(norm - 0.5 * (DOF + dimension) * np.log1p(square / DOF))


def _half_power(
    base: np.ndarray[tuple[int, ...], np.dtype[np.float32]], halves: int
) -> np.ndarray[tuple[int, ...], np.dtype[np.float32]]:
    """Return base^(halves/2) by products, several times faster than a power of a real number."""
    whole, odd = divmod(halves, 2)
    out = np.sqrt(base) if odd else np.ones_like(base)
    while whole:
        if whole & 1:
            out *= base
        whole >>= 1
        if whole:
            base *= base
    return out


def _log_norm(dimension: int) -> float:
    """Return the logarithm of the height of a standard t density."""
    grown = lgamma(0.5 * (DOF + dimension)) - lgamma(0.5 * DOF)
    return grown - 0.5 * dimension * float(np.log(DOF * np.pi))
