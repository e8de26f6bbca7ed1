"""The loop of charge against voltage, with the parallelogram of two capacitors."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor

from ozonewright.questions.power.result import LoopPoint, LoopRow
from ozonewright.show.figures import (
    BOTTOM,
    HEIGHT,
    LEFT,
    RIGHT,
    TOP,
    WIDTH,
    Axis,
    plot,
    words_at,
)
from ozonewright.units import Kind, number

TITLE = "Charge against voltage"
WIDE = 52.0
"""Left of the axis: numbers with a sign take more room."""
ROOM = 1.08
"""What the axes leave free beyond the loop."""
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Signed:
    """An axis with nought in its middle."""

    words: str
    most: float
    start: float
    stop: float
    """Places in the figure of its two ends."""

    @property
    def step(self) -> float:
        """The distance of the ticks."""
        return Axis("", self.most).step * 2.0

    @property
    def end(self) -> float:
        """Half the range."""
        return ROOM * self.most

    def at(self, value: float) -> float:
        """Return where a value stands."""
        return self.start + (self.stop - self.start) * (value / self.end + 1.0) / 2.0

    def ticks(self) -> list[float]:
        """Return where the ticks stand."""
        count = floor(self.end / self.step)
        return [place * self.step for place in range(-count, count + 1)]


def loop_figure(loop: LoopRow) -> str:
    """Return the mean cycle as a line, the sides found in it as a chain line with its corners."""
    outline, corners = (_points(points) for points in (loop.outline, loop.corners))
    every = [*outline, *corners]
    x = Signed("voltage, kV", max(abs(v) for v, _ in every), WIDE, WIDTH - RIGHT)
    y = Signed("charge, µC", max(abs(q) for _, q in every), HEIGHT - BOTTOM, TOP)
    parts = [*_frame(x, y), f'<path class="line" d="{_path(outline, x, y)}"/>']
    if corners:
        parts.append(f'<path class="chain" d="{_path(corners, x, y)}"/>')
        parts += [
            f'<circle class="open" cx="{x.at(v):.1f}" cy="{y.at(q):.1f}" r="3.5"/>'
            for v, q in corners
        ]
    return plot(TITLE, parts)


def _points(points: Sequence[LoopPoint]) -> list[Point]:
    return [
        (number(one.voltage, Kind.VOLTAGE, "kV"), number(one.charge, Kind.CHARGE, "µC"))
        for one in points
        if one.voltage is not None and one.charge is not None
    ]


def _path(points: Sequence[Point], x: Signed, y: Signed) -> str:
    return "M" + "L".join(f"{x.at(v):.1f} {y.at(q):.1f}" for v, q in points) + "Z"


def _frame(x: Signed, y: Signed) -> Iterator[str]:
    floor, left = y.at(-y.end), x.at(-x.end)
    for value in x.ticks():
        at = x.at(value)
        yield f'<path class="axis" d="M{at:.1f} {floor:.1f}v4"/>'
        yield f'<path class="grid" d="M{at:.1f} {floor:.1f}V{TOP:g}"/>'
        yield words_at(at, floor + 17.0, _tick(value), kind="faint")
    for value in y.ticks():
        at = y.at(value)
        yield f'<path class="grid" d="M{left:.1f} {at:.1f}H{WIDTH - RIGHT:g}"/>'
        yield words_at(left - 7.0, at + 4.0, _tick(value), "end", "faint")
    yield f'<path class="axis" d="M{left:.1f} {TOP:g}V{floor:.1f}H{WIDTH - RIGHT:g}"/>'
    yield words_at(LEFT - 37.0, 12.0, y.words, "start", "faint")
    yield words_at(WIDTH - RIGHT, HEIGHT - 6.0, x.words, "end", "faint")


def _tick(value: float) -> str:
    return f"{value:g}".replace("-", "\u2212")
