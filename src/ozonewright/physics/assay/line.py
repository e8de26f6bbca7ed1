"""The straight line through collected mass against on-time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple


class Line(NamedTuple):
    """A weighted line: what is collected per time, and what no time at all would collect."""

    slope: float
    intercept: float
    u_slope: float
    u_intercept: float


def weighted_line(*, x: Sequence[float], y: Sequence[float], u: Sequence[float]) -> Line:
    """Weighted least-squares line through points whose y alone is uncertain.

    Parameters
    ----------
    x : sequence of float
        On-times, at least two different ones; shape (n,). [s]
    y : sequence of float
        Ozone collected; shape (n,). [kg]
    u : sequence of float
        Standard uncertainty of each y, above zero; shape (n,). [kg]

    Returns
    -------
    line : Line
        Slope, then intercept in kg, each with its standard uncertainty. [kg/s]

    Raises
    ------
    None

    Valid
    -----
    Independent y; uncertainty of x small against that of y.

    Source
    ------
    york_2004

    Notes
    -----
    The normal equations about the weighted mean, w = 1/u**2: the case of exact x of the source.
    """
    weights = [1.0 / each**2 for each in u]
    whole = sum(weights)
    centre = sum(w * a for w, a in zip(weights, x, strict=True)) / whole
    level = sum(w * b for w, b in zip(weights, y, strict=True)) / whole
    spread = sum(w * (a - centre) ** 2 for w, a in zip(weights, x, strict=True))
    leaning = sum(w * (a - centre) * b for w, a, b in zip(weights, x, y, strict=True))
    slope = leaning / spread
    return Line(
        slope=slope,
        intercept=level - slope * centre,
        u_slope=spread**-0.5,
        u_intercept=(1.0 / whole + centre**2 / spread) ** 0.5,
    )
