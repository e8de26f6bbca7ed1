"""Two settings beside each other: the scatter they share, their ratio, the runs it takes."""

from __future__ import annotations

from collections.abc import Sequence
from math import erfc, lgamma

import numpy as np

from ozonewright.physics import Real


def pooled_scatter(*, scatters: Sequence[float], counts: Sequence[int]) -> float:
    """Scatter of one run from the runs of several settings that scatter alike.

    Parameters
    ----------
    scatters : sequence of float
        Standard deviation of the runs of each setting over their mean; shape (settings,). [1]
    counts : sequence of int
        Runs of each setting, at least one with two; shape (settings,). [1]

    Returns
    -------
    scatter : float
        Standard deviation of one run over its mean. [1]

    Raises
    ------
    None

    Valid
    -----
    Settings whose runs scatter alike; a setting of one run counts for nothing.

    Source
    ------
    jcgm_100_2008, 4.2.4

    Notes
    -----
    s**2 = sum (n - 1) s_i**2 / sum (n - 1), with sum (n - 1) degrees of freedom.
    """
    weights = [count - 1 for count in counts]
    squares = sum(w * s**2 for w, s in zip(weights, scatters, strict=True))
    return float((squares / sum(weights)) ** 0.5)


def ratio_off(*, ratio: Real, deviation: Real) -> Real:
    """Ratio of two outputs whose logarithm is off by so much.

    Parameters
    ----------
    ratio : float
        Best estimate, above zero. [1]
    deviation : float
        Added to its natural logarithm. [1]

    Returns
    -------
    ratio : float
        The ratio there. [1]

    Raises
    ------
    None

    Valid
    -----
    Any; a relative standard uncertainty is one of the logarithm to first order.

    Source
    ------
    jcgm_100_2008, 5.1.6
    """
    return ratio * np.exp(deviation)


NODES, WEIGHTS = np.polynomial.legendre.leggauss(160)
"""Of a Gauss-Legendre sum from -1 to 1."""
REACH = 9.0
"""Standard deviations of a found scatter to each side of the true one; beyond is nothing."""
_erfc = np.frompyfunc(erfc, 1, 1)
_lgamma = np.frompyfunc(lgamma, 1, 1)


def chance_to_tell(*, difference: Real, scatter: Real, runs_per_arm: Real, critical: Real) -> Real:
    """Chance that a comparison of two settings tells a difference that is there.

    Parameters
    ----------
    difference : float
        Difference of the two means. [1]
    scatter : float
        Standard deviation of one run, alike in both, in the same unit. [1]
    runs_per_arm : float
        Runs of each setting, two or more. [1]
    critical : float
        Two-sided quantile of Student's t of the interval, for 2 n - 2 degrees of freedom. [1]

    Returns
    -------
    chance : float
        Probability that the interval leaves out equality, on the side of the truth. [1]

    Raises
    ------
    None

    Valid
    -----
    Independent runs of normal scatter, the same number of each setting.

    Source
    ------
    r_power_t_test, examples

    Notes
    -----
    Non-central t with 2 n - 2 degrees of freedom and non-centrality d/s sqrt(n/2): the normal
    probability of a difference beyond `critical` times the scatter found, averaged over that
    scatter by a Gauss-Legendre sum. The chance of an interval on the wrong side is left out, as
    the source does unless asked.

    Example
    -------
    Twenty runs each tell a difference of one standard deviation with 0.8690 (r_power_t_test).
    """
    count = np.asarray(runs_per_arm, dtype=np.float64)[..., None]
    dof = 2.0 * count - 2.0
    centre = np.asarray(difference / scatter, dtype=np.float64)[..., None] * (count / 2.0) ** 0.5
    low, high = np.maximum(1.0 - REACH / dof**0.5, 0.0), 1.0 + REACH / dof**0.5
    found = 0.5 * (high - low) * NODES + 0.5 * (high + low)
    log_density = (
        np.log(2.0)
        + 0.5 * dof * np.log(0.5 * dof)
        - np.asarray(_lgamma(0.5 * dof), dtype=np.float64)
        + (dof - 1.0) * np.log(found)
        - 0.5 * dof * found**2
    )
    beyond = np.asarray(critical, dtype=np.float64)[..., None] * found - centre
    told = 0.5 * np.asarray(_erfc(beyond / 2.0**0.5), dtype=np.float64)
    parts = 0.5 * (high - low) * WEIGHTS * np.exp(log_density) * told
    chance: Real = parts.sum(axis=-1)
    return chance
