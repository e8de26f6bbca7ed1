"""How warm the tube is while a timer runs, from cold."""

from __future__ import annotations

from ozonewright.bench.duty import output_course, warming
from ozonewright.questions.duty import Duty
from ozonewright.show.figures import Axis, Point, course, drawn_point, frame, plot, x_at, y_at
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


WARM_UP = "Temperatures read, and the curve fitted to them"
MOST = 150
"""Readings that are drawn; of a longer log some are left out."""


def warm_up_figure(result: Duty) -> str | None:
    """Return the readings of the log with the fitted curve; None without a log, or below 0 °C."""
    rows = [
        (
            number(row.time or 0.0, Kind.TIME, "min"),
            number(row.read or 0.0, Kind.TEMPERATURE, "°C"),
            number(row.fitted or 0.0, Kind.TEMPERATURE, "°C"),
        )
        for row in result.log
    ]
    if not rows or min(min(read, fitted) for _, read, fitted in rows) < 0.0:
        return None
    x = Axis("time, min", rows[-1][0])
    y = Axis("tube, °C", ROOM * max(max(read, fitted) for _, read, fitted in rows))
    path = "L".join(f"{x_at(x, time):.1f} {y_at(y, fitted):.1f}" for time, _, fitted in rows)
    parts = [*frame(x, y), f'<path class="line" d="M{path}"/>']
    for time, read, _ in rows[:: max(len(rows) // MOST, 1)]:
        parts += drawn_point(Point(time, read), x, y, [])
    return plot(WARM_UP, parts)


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
