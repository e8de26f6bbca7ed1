"""Figures as SVG of our own: ink axes, gas blue data, labels where the data are, no legend.

Colours and type come from the page (classes), so that one figure serves light, dark and print.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from math import ceil, floor, log10

WIDTH, HEIGHT = 360.0, 250.0
LEFT, RIGHT, TOP, BOTTOM = 44.0, 14.0, 24.0, 40.0
TICKS = 5
NEAR = 13.0
"""Labels closer than this to another one are left out; the table beside the figure has them."""


@dataclass(frozen=True, slots=True)
class Point:
    """One run in the units of the axes."""

    x: float
    y: float
    u_y: float = 0.0
    label: str = ""
    faint: bool = False
    """Shown, but not used."""


@dataclass(frozen=True, slots=True)
class Axis:
    """One axis: its words and its range from nought."""

    words: str
    most: float

    @property
    def step(self) -> float:
        """The distance of the ticks: 1, 2 or 5 of some power of ten."""
        raw = self.most / TICKS
        power = 10.0 ** floor(log10(raw))
        return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= raw)

    @property
    def end(self) -> float:
        """The end of the axis, a whole number of ticks."""
        return ceil(self.most / self.step - 1e-9) * self.step

    def ticks(self) -> list[float]:
        """Return where the ticks stand."""
        return [number * self.step for number in range(round(self.end / self.step) + 1)]


def against(
    points: Sequence[Point],
    x: Axis,
    y: Axis,
    title: str,
    line: tuple[float, float] | None = None,
    line_words: str = "",
) -> str:
    """Return a figure of points with ±, and a line (intercept, slope) through them."""
    parts = [*frame(x, y)]
    if line is not None:
        parts += _line(line, line_words, x, y)
    placed: list[tuple[float, float]] = []
    for point in points:
        parts += drawn_point(point, x, y, placed)
    return plot(title, parts)


def plot(title: str, parts: Iterable[str], height: float = HEIGHT) -> str:
    """Return a figure of drawn parts."""
    return (
        f'<svg class="plot" viewBox="0 0 {WIDTH:g} {height:g}" role="img" '
        f'aria-label="{escape(title)}">{"".join(parts)}</svg>'
    )


def x_at(x: Axis, value: float) -> float:
    """Return where a value stands across the figure."""
    return LEFT + (WIDTH - LEFT - RIGHT) * value / x.end


def y_at(y: Axis, value: float) -> float:
    """Return where a value stands up the figure."""
    return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * value / y.end


def x_below(x: Axis, value: float) -> float:
    """Return where a value stands across a figure that has rows above its axis, none beside it."""
    left = LEFT / 3.0
    return left + (WIDTH - left - RIGHT) * min(max(value, 0.0), x.end) / x.end


def scale_below(x: Axis, foot: float, height: float, grid: float | None = None) -> Iterator[str]:
    """Yield the axis under the rows of a figure; grid lines from a height on, if it is given."""
    yield f'<path class="axis" d="M{x_below(x, 0.0):.1f} {foot:.1f}H{x_below(x, x.end):.1f}"/>'
    for value in x.ticks():
        at = x_below(x, value)
        if grid is not None:
            yield f'<path class="grid" d="M{at:.1f} {grid:g}V{foot:.1f}"/>'
        yield f'<path class="axis" d="M{at:.1f} {foot:.1f}v4"/>'
        yield words_at(at, foot + 17.0, f"{value:g}", kind="faint")
    yield words_at(WIDTH - RIGHT, height - 6.0, x.words, "end", "faint")


def words_at(x: float, y: float, text: str, anchor: str = "middle", kind: str = "") -> str:
    """Return words at a place."""
    name = f' class="{kind}"' if kind else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"{name}>{escape(text)}</text>'


def frame(x: Axis, y: Axis) -> Iterator[str]:
    """Yield both axes with ticks and words."""
    floor_line, left = y_at(y, 0.0), x_at(x, 0.0)
    for value in x.ticks():
        at = x_at(x, value)
        yield f'<path class="axis" d="M{at:.1f} {floor_line:.1f}v4"/>'
        yield words_at(at, floor_line + 17.0, f"{value:g}", kind="faint")
    for value in y.ticks():
        at = y_at(y, value)
        if value:
            yield f'<path class="grid" d="M{left:.1f} {at:.1f}H{WIDTH - RIGHT:g}"/>'
        yield words_at(left - 7.0, at + 4.0, f"{value:g}", "end", "faint")
    yield f'<path class="axis" d="M{left:.1f} {TOP:g}V{floor_line:.1f}H{WIDTH - RIGHT:g}"/>'
    yield words_at(left - 7.0, 12.0, y.words, "start", "faint")
    yield words_at(WIDTH - RIGHT, HEIGHT - 6.0, x.words, "end", "faint")


def _line(line: tuple[float, float], words: str, x: Axis, y: Axis) -> Iterator[str]:
    start, slope = line
    far = x.end if start + slope * x.end <= y.end else (y.end - start) / slope
    yield (
        f'<path class="line" d="M{x_at(x, 0.0):.1f} {y_at(y, start):.1f}'
        f'L{x_at(x, far):.1f} {y_at(y, start + slope * far):.1f}"/>'
    )
    if words:
        yield words_at(LEFT + 8.0, TOP + 12.0, words, "start")


def drawn_point(point: Point, x: Axis, y: Axis, placed: list[tuple[float, float]]) -> Iterator[str]:
    """Yield a point with its ±, and its label where there is room."""
    across, up = x_at(x, point.x), y_at(y, point.y)
    kind = "open" if point.faint else "point"
    if point.u_y > 0.0:
        top, foot = y_at(y, point.y + point.u_y), y_at(y, point.y - point.u_y)
        yield f'<path class="{kind}" d="M{across:.1f} {top:.1f}V{foot:.1f}"/>'
    yield f'<circle class="{kind}" cx="{across:.1f}" cy="{up:.1f}" r="3.5"/>'
    free = all(abs(across - a) > 2 * NEAR or abs(up - b) > NEAR for a, b in placed)
    if point.label and free:
        placed.append((across, up))
        right = across < WIDTH - RIGHT - 40.0
        below = up + 2.0 * NEAR < HEIGHT - BOTTOM
        yield words_at(
            across + (8.0 if right else -8.0),
            up + (14.0 if below else -6.0),
            point.label[:14],
            "start" if right else "end",
            "faint",
        )


def course(
    points: Sequence[tuple[float, float]],
    x: Axis,
    y: Axis,
    title: str,
    level: tuple[float, str] | None = None,
) -> str:
    """Return a figure of one curve, and a level (value, words) that it should not pass."""
    parts = [*frame(x, y)]
    path = "L".join(f"{x_at(x, a):.1f} {y_at(y, b):.1f}" for a, b in points)
    parts.append(f'<path class="line" d="M{path}"/>')
    if level is not None:
        at = y_at(y, level[0])
        parts.append(f'<path class="level" d="M{LEFT:.1f} {at:.1f}H{WIDTH - RIGHT:g}"/>')
        parts.append(words_at(WIDTH - RIGHT - 4.0, at - 6.0, level[1], "end"))
    return plot(title, parts)
