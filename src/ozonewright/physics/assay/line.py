"""The straight line through collected mass against on-time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ozonewright.physics import Real


class Line(NamedTuple):
    """A weighted line: what is collected per time, and what no time at all would collect."""

    slope: float
    intercept: float
    u_slope: float
    u_intercept: float
    centre: float
    """Where the line is surest; slope and intercept are tied by it. [s]"""


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
        centre=centre,
    )


STEPS = 50
STILL = 1e-14


def line_errors_in_both(
    *, x: Sequence[float], y: Sequence[float], u_x: Sequence[float], u_y: Sequence[float]
) -> Line:
    """Least-squares line through points of which x and y are both uncertain.

    Parameters
    ----------
    x : sequence of float
        On-times, at least two different ones; shape (n,). [s]
    y : sequence of float
        Ozone collected; shape (n,). [kg]
    u_x : sequence of float
        Standard uncertainty of each x; shape (n,). [s]
    u_y : sequence of float
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
    Independent x and y; the slope is found by repetition from that of exact x.

    Source
    ------
    york_2004

    Notes
    -----
    W = 1/(u_y^2 + b^2 u_x^2), U = x - mean, V = y - mean, beta = W (U u_y^2 + b V u_x^2),
    b = sum(W beta V)/sum(W beta U); the uncertainties are taken at the adjusted points.
    """
    b = weighted_line(x=x, y=y, u=u_y).slope
    for _ in range(STEPS):
        weights = [1.0 / (e**2 + (b * d) ** 2) for d, e in zip(u_x, u_y, strict=True)]
        whole = sum(weights)
        centre = sum(w * a for w, a in zip(weights, x, strict=True)) / whole
        level = sum(w * a for w, a in zip(weights, y, strict=True)) / whole
        moved = [
            w * ((p - centre) * e**2 + b * (q - level) * d**2)
            for w, p, q, d, e in zip(weights, x, y, u_x, u_y, strict=True)
        ]
        before = b
        b = sum(w * m * (q - level) for w, m, q in zip(weights, moved, y, strict=True)) / sum(
            w * m * (p - centre) for w, m, p in zip(weights, moved, x, strict=True)
        )
        if abs(b - before) <= STILL * abs(b):
            break
    middle = centre + sum(w * m for w, m in zip(weights, moved, strict=True)) / whole
    spread = sum(w * (centre + m - middle) ** 2 for w, m in zip(weights, moved, strict=True))
    return Line(
        slope=b,
        intercept=level - b * centre,
        u_slope=spread**-0.5,
        u_intercept=(1.0 / whole + middle**2 / spread) ** 0.5,
        centre=middle,
    )


def u_on_line(*, x: Real, line: Line) -> Real:
    """Standard uncertainty of a fitted line at an on-time.

    Parameters
    ----------
    x : float
        On-time. [s]
    line : Line
        The line, as fitted. [kg/s]

    Returns
    -------
    u : float
        Of the ozone that the line foretells there; the scatter of a run is not in it. [kg]

    Raises
    ------
    None

    Valid
    -----
    Any on-time; far beyond the runs a straight line is a bold guess.

    Source
    ------
    york_2004

    Notes
    -----
    u^2 = u_a^2 + 2 x cov(a, b) + x^2 u_b^2 with cov(a, b) = -centre u_b^2.
    """
    variance = line.u_intercept**2 + (x * x - 2.0 * x * line.centre) * line.u_slope**2
    return variance**0.5
