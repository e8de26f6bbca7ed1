"""How warm the tube is while a timer runs, from cold."""

from __future__ import annotations

from ozonewright.bench.duty import output_course, warming
from ozonewright.questions.duty import Duty
from ozonewright.show.figures import Axis, course
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

ROOM = 1.1
"""What the axis leaves free above the highest of it all."""


def warming_figure(result: Duty) -> str:
    """Return the figure; in degrees over the ambient where the rise is known, else in per cent."""
    times, shares = warming(result)
    minutes = [number(time, Kind.TIME, "min") for time in times]
    x = Axis("time since the start, min", minutes[-1])
    rise = _rise(result)
    if rise is None:
        points = [(t, 100.0 * share) for t, share in zip(minutes, shares, strict=True)]
        return course(points, x, Axis("rise, % of the continuous one", 100.0), TITLE)
    points = [(t, rise * share) for t, share in zip(minutes, shares, strict=True)]
    level, most = None, max(height for _, height in points)
    if result.limit is not None and result.ambient is not None:
        level = (result.limit - result.ambient, "limit")
        most = max(most, level[0])
    return course(points, x, Axis("over the ambient, K", ROOM * most), TITLE, level)


OUTPUT = "Output against time"


def output_figure(result: Duty) -> str | None:
    """Return the figure of what comes out, where it falls as the tube warms; else None."""
    points = output_course(result)
    if points is None:
        return None
    drawn = [
        (number(time, Kind.TIME, "min"), number(rate, Kind.MASS_RATE, "g/h"))
        for time, rate in points
    ]
    x = Axis("time since the start, min", drawn[-1][0])
    return course(drawn, x, Axis("output, g/h", ROOM * max(rate for _, rate in drawn)), OUTPUT)


TITLE = "Temperature of the tube against time"


def _rise(result: Duty) -> float | None:
    if not isinstance(result.steady_temperature, Estimate) or result.ambient is None:
        return None
    return result.steady_temperature.value - result.ambient
