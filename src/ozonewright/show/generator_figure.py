"""Output of a generator against flow: its band, and the runs on it."""

from __future__ import annotations

from ozonewright.questions.generator import Generator
from ozonewright.show.figures import Axis, Point, drawn_point, frame, plot, x_at, y_at
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

TITLE = "Output against flow, by the model, and the runs"
ROOM = 1.08
"""What the axis leaves free above the highest of it all."""


def map_figure(result: Generator) -> str:
    """Return the figure: the line at the place asked for, its 95 %, and the runs."""
    rows = [
        (row.flow, row.rate)
        for row in result.curve
        if row.flow is not None and isinstance(row.rate, Estimate)
    ]
    flows = [number(flow, Kind.NORMAL_FLOW, "NL/min") for flow, _ in rows]
    middle, low, high = (
        [_grams(one) for one in column]
        for column in zip(*((rate.value, *rate.interval) for _, rate in rows), strict=True)
    )
    runs = [
        Point(
            number(run.flow or 0.0, Kind.NORMAL_FLOW, "NL/min"),
            _grams(run.measured or 0.0),
            label=run.label,
            faint=not run.alike,
        )
        for run in result.runs
    ]
    x = Axis("flow of the feed, NL/min", max(flows))
    y = Axis("output, g/h", ROOM * max([*high, *(run.y for run in runs)]))
    there = [*zip(flows, high, strict=True), *zip(flows[::-1], low[::-1], strict=True)]
    parts = [
        *frame(x, y),
        f'<path class="band" d="M{_path(there, x, y)}z"/>',
        f'<path class="line" d="M{_path(list(zip(flows, middle, strict=True)), x, y)}"/>',
    ]
    placed: list[tuple[float, float]] = []
    for run in runs:
        parts += drawn_point(run, x, y, placed)
    return plot(TITLE, parts)


def _grams(rate: float) -> float:
    return number(rate, Kind.MASS_RATE, "g/h")


def _path(points: list[tuple[float, float]], x: Axis, y: Axis) -> str:
    return "L".join(f"{x_at(x, a):.1f} {y_at(y, b):.1f}" for a, b in points)
