"""How warm the tube is while a timer runs, from cold."""

from __future__ import annotations

from ozonewright.bench.duty import warming
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


TITLE = "Temperature of the tube against time"


def _rise(result: Duty) -> float | None:
    if not isinstance(result.steady_temperature, Estimate) or result.ambient is None:
        return None
    return result.steady_temperature.value - result.ambient
