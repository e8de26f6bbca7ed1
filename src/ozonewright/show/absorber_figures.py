"""Uptake against depth, flow and bubble; a simulated run with its bands and marks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.questions.absorber import Absorber, CurveRow, RunPoint, SimulatedRun
from ozonewright.show.figures import (
    BOTTOM,
    HEIGHT,
    TOP,
    Axis,
    course,
    frame,
    plot,
    words_at,
    x_at,
    y_at,
)
from ozonewright.show.numbers import significant
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number, size

WHOLE = Axis("taken up, %", 100.0)
SHARES = Axis("converted and product, %", 100.0)
FIGURES = 6
COURSE = 2.2
"""The figure of a run ends at so many on-times."""
DEPTH, FLOW, BUBBLE = (
    "Uptake against depth",
    "Uptake against flow, the output kept",
    "Uptake against bubble",
)
RUN, OFF_GAS = "Converted and product against on-time", "Ozone in the off-gas against on-time"


def uptake_figures(found: Absorber) -> Iterator[tuple[str, str, str, str]]:
    """Yield each figure of an absorber: its title, the picture, what is changed and its unit."""
    for title, of, unit in ((DEPTH, "depth", "cm"), (FLOW, "flow", "NL/min"),
                            (BUBBLE, "bubble", "mm")):  # fmt: skip
        yield title, _curve(found, of, f"{of}, {unit}", title), of, unit


def curve_rows(found: Absorber, of: str) -> Iterator[tuple[str, str]]:
    """Yield the numbers of one curve: where, and the per cent taken up."""
    for row in found.curves:
        if row.of == of:
            share = number(row.efficiency or 0.0, Kind.SHARE, "%")
            yield significant(_x(row), FIGURES), significant(share, FIGURES)


def _curve(found: Absorber, of: str, words: str, title: str) -> str:
    points = [(_x(row), 100.0 * (row.efficiency or 0.0)) for row in found.curves if row.of == of]
    return course(points, Axis(words, points[-1][0]), WHOLE, title)


def _x(row: CurveRow) -> float:
    if row.depth is not None:
        return number(row.depth, Kind.LENGTH, "cm")
    if row.flow is not None:
        return number(row.flow, Kind.NORMAL_FLOW, "NL/min")
    return number(row.bubble or 0.0, Kind.LENGTH, "mm")


def run_figures(run: SimulatedRun) -> Iterator[tuple[str, str]]:
    """Yield each figure of a simulated run with its title."""
    points = shown_points(run)
    x = Axis("on-time, min", _minutes(points[-1]))
    parts = [
        *frame(x, SHARES),
        _band(points, x, SHARES, [(_percent(p.product_low), _percent(p.product_high))
                                  for p in points]),
        _line(points, x, SHARES, [_percent(p.product) for p in points], "line"),
        _line(points, x, SHARES, [_percent(p.converted) for p in points], "chain"),
        *_marks(run, x),
    ]  # fmt: skip
    yield RUN, plot(RUN, parts)
    highs = [_gas(p.off_gas_high) for p in points]
    y = Axis("off-gas, g/Nm³", max(highs))
    parts = [
        *frame(x, y),
        _band(points, x, y, [(_gas(p.off_gas_low), _gas(p.off_gas_high)) for p in points]),
        _line(points, x, y, [_gas(p.off_gas) for p in points], "line"),
        *_marks(run, x),
    ]
    yield OFF_GAS, plot(OFF_GAS, parts)


def shown_points(run: SimulatedRun) -> list[RunPoint]:
    """Return the moments that the figures show."""
    if not isinstance(run.on_time, Estimate):
        return list(run.points)
    last = COURSE * run.on_time.value
    return [point for point in run.points if (point.time or 0.0) <= last]


def _minutes(point: RunPoint) -> float:
    return number(point.time or 0.0, Kind.TIME, "min")


def _percent(share: float | None) -> float:
    return min(max(100.0 * (share or 0.0), 0.0), 100.0)


def _gas(concentration: float | None) -> float:
    return max((concentration or 0.0) / size(Kind.NORMAL_CONCENTRATION, "g/Nm3"), 0.0)


def _path(points: Sequence[RunPoint], x: Axis, y: Axis, values: Sequence[float]) -> str:
    return "L".join(
        f"{x_at(x, _minutes(point)):.1f} {y_at(y, value):.1f}"
        for point, value in zip(points, values, strict=True)
    )


def _line(points: Sequence[RunPoint], x: Axis, y: Axis, values: Sequence[float], kind: str) -> str:
    return f'<path class="{kind}" d="M{_path(points, x, y, values)}"/>'


def _band(points: Sequence[RunPoint], x: Axis, y: Axis, ends: Sequence[tuple[float, float]]) -> str:
    upper = _path(points, x, y, [high for _, high in ends])
    lower = _path(points[::-1], x, y, [low for low, _ in ends[::-1]])
    return f'<path class="band" d="M{upper}L{lower}Z"/>'


def _marks(run: SimulatedRun, x: Axis) -> Iterator[str]:
    """Yield the marks: look from and stop by."""
    for when, words, anchor, away in (
        (run.look_from, "look", "end", -4.0), (run.stop_by, "stop by", "start", 4.0),
    ):  # fmt: skip
        if when is None:
            continue
        at = x_at(x, number(when, Kind.TIME, "min"))
        yield f'<path class="level" d="M{at:.1f} {TOP:g}V{HEIGHT - BOTTOM:g}"/>'
        yield words_at(at + away, TOP + 10.0, words, anchor)
