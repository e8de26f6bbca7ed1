"""Collected ozone against on-time: what the runs of a setting have in common, at a look."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.questions.output import Output
from ozonewright.show.figures import Axis, Point, against
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number, size

ROOM = 1.08
"""What the axes leave free beyond the last run."""


def collected_against_time(
    runs: Sequence[Output], slope: float | None = None, start: float = 0.0, words: str = ""
) -> str:
    """Return the figure, or nothing without a run that has both; slope in kg/s, start in kg."""
    points = list(_points(runs))
    if not points:
        return ""
    x = Axis("on-time, min", ROOM * max(point.x for point in points))
    y = Axis("ozone, mg", ROOM * max(point.y + point.u_y for point in points))
    line = None
    if slope is not None and slope > 0.0:
        line = (
            number(start, Kind.MASS, "mg"),
            number(slope, Kind.MASS_RATE, "mg/min"),
        )
    return against(points, x, y, "Ozone collected against on-time", line, words)


def _points(runs: Sequence[Output]) -> Iterator[Point]:
    for run in runs:
        if run.on_time is None or run.ozone is None:
            continue
        yield Point(
            number(_value(run.on_time), Kind.TIME, "min"),
            number(_value(run.ozone), Kind.MASS, "mg"),
            run.ozone.u / size(Kind.MASS, "mg") if isinstance(run.ozone, Estimate) else 0.0,
            run.label or "",
            faint=run.discharge == "off",
        )


def _value(one: Estimate | float) -> float:
    return one.value if isinstance(one, Estimate) else one
