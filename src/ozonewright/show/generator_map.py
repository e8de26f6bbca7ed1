"""The map of a generator: output and concentration over flow, and power or tube temperature."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ozonewright.questions.generator import Point, Question
from ozonewright.questions.generator.map import Map
from ozonewright.references.constants import M_O3
from ozonewright.show.contours import Array, Place, band, levels, line, line_path
from ozonewright.show.figures import HEIGHT, WIDTH, plot, words_at
from ozonewright.show.numbers import significant
from ozonewright.units import Kind, number

Field = Literal["output", "concentration"]
LEFT, RIGHT, TOP, BOTTOM = 44.0, 14.0, 24.0, 40.0
TICKS = 5
COLUMNS = 5
"""Of the words that say the same without a picture."""
DOUBTFUL = 0.25
"""Half of the 95 % over the output, from which the map is drawn as doubtful."""
MOST_TOLD = 100.0
"""Per cent; where a discharge in air is poisoned the model tells the sign alone."""
ALIKE = 0.05
NEAR = 14.0
WORDS = {
    "output": "output, g/h",
    "concentration": "concentration, g/Nm³",
    "power": "power, W",
    "wall": "tube temperature, °C",
}
UNITS = {"output": "g/h", "concentration": "g/Nm³", "power": "W", "wall": "°C"}
TITLES = {
    ("output", "wall"): "Output over flow and tube temperature",
    ("output", "power"): "Output over flow and power",
    ("concentration", "wall"): "Concentration over flow and tube temperature",
    ("concentration", "power"): "Concentration over flow and power",
}


@dataclass(frozen=True, slots=True)
class MapFigure:
    """A map drawn, and the same in words and numbers."""

    title: str
    svg: str
    caption: str
    words: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    """Flow, power or temperature, the field, and half of its 95 %."""


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A map in the units of its axes."""

    x: Array
    y: Array
    field: Array
    doubt: Array
    """Half of the 95 % over the output. [1]"""

    def at(self, place: Place) -> Place:
        """Return where a place stands on the drawing."""
        across = (place[0] - self.x[0]) / (self.x[-1] - self.x[0])
        up = (place[1] - self.y[0]) / (self.y[-1] - self.y[0])
        return (
            LEFT + (WIDTH - LEFT - RIGHT) * float(across),
            HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * float(up),
        )

    def holds(self, place: Place) -> bool:
        """Whether a place lies on it."""
        inside = self.x[0] <= place[0] <= self.x[-1] and self.y[0] <= place[1] <= self.y[-1]
        return bool(inside)


def map_figure_of(found: Map, question: Question, field: Field = "output") -> MapFigure:
    """Return a map with its runs, drawn and as a table."""
    sheet = _sheet(found, field)
    title = TITLES[field, found.over]
    return MapFigure(
        title=title,
        svg=plot(title, _parts(sheet, found, question, field)),
        caption=_caption(sheet, found, field),
        words=_words(sheet, found, field),
        head=("flow, NL/min", WORDS[found.over], WORDS[field], "half of the 95 %, %"),
        rows=tuple(_rows(sheet)),
    )


def _sheet(found: Map, field: Field) -> _Sheet:
    kind, unit = (Kind.POWER, "W") if found.over == "power" else (Kind.TEMPERATURE, "°C")
    if field == "output":
        values = [number(one * M_O3, Kind.MASS_RATE, "g/h") for one in found.rate.ravel()]
    else:
        values = [number(one, Kind.NORMAL_CONCENTRATION, "g/Nm3") for one in found.strength.ravel()]
    return _Sheet(
        x=np.array([number(flow, Kind.NORMAL_FLOW, "NL/min") for flow in found.flows]),
        y=np.array([number(value, kind, unit) for value in found.values]),
        field=np.array(values).reshape(found.rate.shape),
        doubt=np.sqrt(found.high / found.low) - 1.0,
    )


def _parts(sheet: _Sheet, found: Map, question: Question, field: Field) -> Iterator[str]:
    placed: list[Place] = []
    runs = list(_runs(sheet, found, question, placed))
    heights = levels(sheet.field)
    for level in heights:
        path = band(sheet.x, sheet.y, sheet.field, level, sheet.at)
        yield f'<path class="shade" shape-rendering="crispEdges" d="{path}"/>'
    labels = []
    for order, level in enumerate(heights):
        pieces = line(sheet.x, sheet.y, sheet.field, level)
        yield f'<path class="line" d="{line_path(pieces, sheet.at)}"/>'
        labels += list(_label(sheet, pieces, f"{level:g}", order, placed))
    if sheet.doubt.max() > DOUBTFUL and sheet.doubt.min() < DOUBTFUL:
        pieces = line(sheet.x, sheet.y, sheet.doubt, DOUBTFUL)
        yield f'<path class="chain" d="{line_path(pieces, sheet.at)}"/>'
        labels += list(_label(sheet, pieces, f"± {100.0 * DOUBTFUL:.0f} %", 1, placed))
    yield from labels
    yield from _frame(sheet, found, field)
    yield from runs


def _label(
    sheet: _Sheet, pieces: list[tuple[Place, Place]], text: str, order: int, placed: list[Place]
) -> Iterator[str]:
    """Yield the words of a line at a piece of it that stands free, further in for each line."""
    wanted = 0.85 - 0.12 * (order % 5)
    middles = [
        sheet.at((0.5 * (one[0] + other[0]), 0.5 * (one[1] + other[1]))) for one, other in pieces
    ]
    middles.sort(key=lambda at: abs((at[0] - LEFT) / (WIDTH - LEFT - RIGHT) - wanted))
    for across, up in middles:
        inside = (
            LEFT + 16.0 < across < WIDTH - RIGHT - 16.0 and TOP + 8.0 < up < HEIGHT - BOTTOM - 6
        )
        if inside and _free(placed, across, up):
            placed.append((across, up))
            yield words_at(across, up + 4.0, text, kind="over")
            return


def _free(placed: list[Place], across: float, up: float) -> bool:
    return all(abs(across - a) > 2.4 * NEAR or abs(up - b) > NEAR for a, b in placed)


def _ticks(values: Array) -> list[float]:
    raw = (values[-1] - values[0]) / TICKS
    power = 10.0 ** np.floor(np.log10(raw))
    step = next(float(s * power) for s in (1.0, 2.0, 5.0, 10.0) if s * power >= raw)
    first, last = int(np.ceil(values[0] / step - 1e-9)), int(np.floor(values[-1] / step + 1e-9))
    return [round(n * step, 9) for n in range(first, last + 1)]


def _frame(sheet: _Sheet, found: Map, field: Field) -> Iterator[str]:
    floor, left = HEIGHT - BOTTOM, LEFT
    for value in _ticks(sheet.x):
        at, _ = sheet.at((value, float(sheet.y[0])))
        yield f'<path class="axis" d="M{at:.1f} {floor:.1f}v4"/>'
        yield words_at(at, floor + 17.0, f"{value:g}", kind="faint")
    for value in _ticks(sheet.y):
        _, at = sheet.at((float(sheet.x[0]), value))
        yield f'<path class="axis" d="M{left:.1f} {at:.1f}h-4"/>'
        yield words_at(left - 7.0, at + 4.0, f"{value:g}", "end", "faint")
    yield f'<path class="axis" d="M{left:.1f} {TOP:g}V{floor:.1f}H{WIDTH - RIGHT:g}"/>'
    yield words_at(8.0, 12.0, WORDS[found.over], "start", "faint")
    yield words_at(WIDTH - RIGHT, 12.0, f"lines: {WORDS[field]}", "end", "faint")
    yield words_at(WIDTH - RIGHT, HEIGHT - 6.0, "flow of the feed, NL/min", "end", "faint")


def _runs(sheet: _Sheet, found: Map, question: Question, placed: list[Place]) -> Iterator[str]:
    """Yield the runs where they are, and the place asked for."""
    here = _place(question.point, found)
    if here is not None and sheet.holds(here):
        across, up = sheet.at(here)
        yield f'<path class="here" d="M{across - 7:.1f} {up:.1f}h14M{across:.1f} {up - 7:.1f}v14"/>'
    for run in question.runs:
        at = _place(run.point, found)
        if at is None or not sheet.holds(at):
            continue
        across, up = sheet.at(at)
        kind = "point" if _alike(run.point, question.point, found) else "open"
        yield f'<circle class="{kind}" cx="{across:.1f}" cy="{up:.1f}" r="3.5"/>'
        yield from _named(run.label[:10], across, up, placed)


def _named(label: str, across: float, up: float, placed: list[Place]) -> Iterator[str]:
    """Yield a label to the right or left of a point, wherever it stands free; else the table."""
    for side, anchor in ((1.0, "start"), (-1.0, "end")):
        middle = across + side * 24.0
        if LEFT + 16.0 < middle < WIDTH - RIGHT - 16.0 and _free(placed, middle, up):
            placed.append((middle, up))
            yield words_at(across + side * 9.0, up + 4.0, label, anchor, "over")
            return


def _place(point: Point, found: Map) -> Place | None:
    value = point.power if found.over == "power" else point.wall
    if value is None:
        return None
    kind, unit = (Kind.POWER, "W") if found.over == "power" else (Kind.TEMPERATURE, "°C")
    return number(point.flow, Kind.NORMAL_FLOW, "NL/min"), number(value, kind, unit)


def _alike(run: Point, point: Point, found: Map) -> bool:
    """Whether what the axes do not show is that of the place: feed, and power under temperature."""
    same = abs(run.oxygen - point.oxygen) < ALIKE
    if found.over == "power" or run.power is None or point.power is None:
        return same
    return same and abs(run.power - point.power) < ALIKE * point.power


def _caption(sheet: _Sheet, found: Map, field: Field) -> str:
    low, high = (100.0 * float(end) for end in (sheet.doubt.min(), sheet.doubt.max()))
    most = f"{high:.0f} %" if high < MOST_TOLD else f"more than {MOST_TOLD:.0f} %"
    rest = "feed and power" if found.over == "wall" else "feed and tube temperature"
    lines = "output in g/h" if field == "output" else "concentration in g/Nm³"
    chain = (
        f"; the chain line is where it is {100.0 * DOUBTFUL:.0f} %"
        if low < 100.0 * DOUBTFUL < high
        else ""
    )
    unread = "tube temperature" if found.over == "wall" else "power"
    other = "feed or power" if found.over == "wall" else "feed"
    return (
        f"Lines: {lines} with {rest} of this place, which is the cross. Half of the 95 % is "
        f"{low:.0f} % to {most} of the output{chain}. Points are runs, open ones at another "
        f"{other}; a run whose {unread} nobody read is not on it."
    )


def _places(count: int) -> list[int]:
    return [round(each) for each in np.linspace(0, count - 1, COLUMNS)]


def _words(sheet: _Sheet, found: Map, field: Field) -> str:
    """Return the map at a few flows and powers or temperatures, the highest first."""
    unit = UNITS[field]
    said = []
    for j in reversed(_places(len(sheet.y))):
        each = (
            f"{significant(float(sheet.field[i, j]), 3)} {unit} at "
            f"{significant(float(sheet.x[i]), 2)} NL/min"
            for i in _places(len(sheet.x))
        )
        said.append(f"{significant(float(sheet.y[j]), 2)} {UNITS[found.over]}: {', '.join(each)}")
    return "; ".join(said) + "."


def _rows(sheet: _Sheet) -> Iterator[tuple[str, ...]]:
    for i, flow in enumerate(sheet.x):
        for j, value in enumerate(sheet.y):
            cells = (flow, value, sheet.field[i, j], 100.0 * sheet.doubt[i, j])
            yield tuple(significant(float(cell), 4) for cell in cells)
