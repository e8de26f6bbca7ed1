"""The coverage factor: Student's t without a library (docs/decisions/0003-student-t.md)."""

from __future__ import annotations

from functools import lru_cache
from math import cos, floor, isinf, pi, sin, sqrt, tan
from statistics import NormalDist

from ozonewright.errors import OutOfBounds

SERIES_LIMIT = 1000
"""Above this many degrees of freedom the expansion in 1/dof is exact to the last digits."""


@lru_cache(maxsize=256)
def coverage_factor(coverage: float, dof: float) -> float:
    """Return k such that ±k standard uncertainties hold the stated coverage.

    Parameters
    ----------
    coverage : float
        Probability between the limits, 0 < coverage < 1. [1]
    dof : float
        Effective degrees of freedom; cut to the whole number below (JCGM 100, G.4.1). [1]

    Returns
    -------
    k : float
        Two-sided quantile of Student's t. [1]

    Notes
    -----
    Up to 1000 degrees of freedom the finite trigonometric sum for the probability (Abramowitz and
    Stegun 1964, 26.7.3 and 26.7.4) is solved by Newton's rule; above, their expansion 26.7.5.
    """
    if not 0.0 < coverage < 1.0:
        raise OutOfBounds(
            "a coverage probability lies between 0 and 1", got=f"{coverage:g}", fix="Use 0.95."
        )
    normal = NormalDist().inv_cdf((1.0 + coverage) / 2.0)
    if isinf(dof):
        return normal
    # 3.999999999 is four degrees of freedom that went through a division.
    whole = floor(dof * (1.0 + 1e-9))
    if whole < 1:
        raise OutOfBounds(
            "fewer than one degree of freedom", got=f"{dof:g}", fix="Repeat a measurement."
        )
    return _expansion(normal, whole) if whole > SERIES_LIMIT else _solve(coverage, whole)


def _solve(coverage: float, dof: int) -> float:
    """Return t by Newton's rule in the angle atan(t/√dof).

    The probability is concave in the angle, so that steps from zero never overshoot.
    """
    angle = 0.0
    for _ in range(200):
        probability, slope = _within(angle, dof)
        step = (coverage - probability) / slope
        angle += step
        if abs(step) <= 1e-15 * angle:
            break
    return sqrt(dof) * tan(angle)


def _within(angle: float, dof: int) -> tuple[float, float]:
    """Return the probability of |t| below √dof tan(angle), and its derivative by the angle."""
    square = cos(angle) ** 2
    odd = dof % 2
    term = cos(angle) if odd else 1.0
    total = term if dof > 1 else 0.0
    for j in range(2 + odd, dof, 2):
        term *= square * (j - 1) / j
        total += term
    if odd:
        # With one degree of freedom the sum is empty and the angle itself is left.
        slope = term * cos(angle) * (dof - 1) if dof > 1 else 1.0
        return 2.0 / pi * (angle + sin(angle) * total), 2.0 / pi * slope
    return sin(angle) * total, term * cos(angle) * (dof - 1)


def _expansion(z: float, dof: int) -> float:
    """Return t from the normal quantile z as a series in 1/dof."""
    z2 = z * z
    g1 = z * (z2 + 1.0) / 4.0
    g2 = z * ((5.0 * z2 + 16.0) * z2 + 3.0) / 96.0
    g3 = z * (((3.0 * z2 + 19.0) * z2 + 17.0) * z2 - 15.0) / 384.0
    g4 = z * ((((79.0 * z2 + 776.0) * z2 + 1482.0) * z2 - 1920.0) * z2 - 945.0) / 92160.0
    return z + (g1 + (g2 + (g3 + g4 / dof) / dof) / dof) / dof
