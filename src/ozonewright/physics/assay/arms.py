"""Two settings beside each other: the scatter they share, their ratio, the runs it takes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.special import nctdtr, stdtrit

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


def chance_to_tell(
    *, difference: Real, scatter: Real, runs_per_arm: Real, confidence: float
) -> Real:
    """Chance that a comparison of two settings tells a difference that is there.

    Parameters
    ----------
    difference : float
        Difference of the two means. [1]
    scatter : float
        Standard deviation of one run, alike in both, in the same unit. [1]
    runs_per_arm : float
        Runs of each setting, two or more. [1]
    confidence : float
        Of the interval that must leave out equality. [1]

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
    Non-central t with 2 n - 2 degrees of freedom and non-centrality d/s sqrt(n/2). The chance of
    an interval on the wrong side is left out, as the source does unless asked.

    Example
    -------
    Twenty runs each tell a difference of one standard deviation with 0.8690 (r_power_t_test).
    """
    dof = 2.0 * runs_per_arm - 2.0
    critical = stdtrit(dof, 0.5 + 0.5 * confidence)
    centre = np.asarray(difference / scatter * (runs_per_arm / 2.0) ** 0.5, dtype=np.float64)
    missed = np.asarray(nctdtr(dof, centre, critical), dtype=np.float64)
    return 1.0 - missed[()]
