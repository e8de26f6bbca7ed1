"""The line from left to right, with the profiles of pressure and concentration below it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from ozonewright.show.drawing.course import course
from ozonewright.show.drawing.figures import flow_is_news, flow_of, flow_text, is_bottleneck
from ozonewright.show.drawing.layout import Item, Place, main_line
from ozonewright.show.drawing.pen import moved, text, width_of, wrapped
from ozonewright.show.drawing.profiles import Step, profiles
from ozonewright.show.drawing.readout import Readout
from ozonewright.show.drawing.ways import Row, Ways, gas_lines

WIDTH = 1104.0
BROADEST = 1190.0
"""A single row may be so wide; the sheet then shows it a little smaller. [px]"""
LEAST_GAP, MOST_GAP = 10.0, 56.0
TAIL = 26.0
"""Of the line behind the last part. [px]"""
LEADING = 15.0
NAME_LETTERS, FACT_LETTERS = 14, 11
BETWEEN_ROWS = 34.0
LANE = 44.0
"""Least distance of two lanes. [px]"""
AIR = 8.0
BOLD = 1.12
"""How much wider bold letters are."""

Box = tuple[float, float, float, float]


@dataclass
class Lane:
    """What is drawn along one axis of a row, y counted from the axis."""

    strokes: list[str] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    foot: dict[int, float] = field(default_factory=dict)
    """Lowest stroke of each item."""

    @property
    def up(self) -> float:
        """How far it reaches above its axis."""
        return max((-box[1] for box in self.boxes), default=0.0)

    @property
    def down(self) -> float:
        """How far it reaches below its axis."""
        return max((box[3] for box in self.boxes), default=0.0)

    def clear_of(self, other: Lane, shift: float) -> bool:
        """Return whether nothing of it meets the other lane when it lies so much lower."""
        return not any(
            _meet((a[0], a[1] + shift - AIR, a[2], a[3] + shift + AIR), b)
            for a in self.boxes
            for b in other.boxes
        )


def wide(
    items: Sequence[Item], places: Sequence[Place], readout: Readout
) -> tuple[list[str], float, float]:
    """Return strokes, width and height."""
    spread = _widths(items, places, readout)
    rows = _rows(spread)
    strokes: list[str] = []
    y, broadest = 0.0, 0.0
    for number, row in enumerate(rows):
        _space(row, spread, alone=len(rows) == 1)
        drawn, height = _row(items, places, readout, row, spread, y, last=number == len(rows) - 1)
        strokes += drawn
        y += height + BETWEEN_ROWS
        broadest = max(broadest, row.width)
    return strokes, broadest, y - BETWEEN_ROWS


def _widths(items: Sequence[Item], places: Sequence[Place], readout: Readout) -> dict[int, float]:
    spread: dict[int, float] = {}
    for item, place in zip(items, places, strict=True):
        facts = [part for one in item.facts for part in wrapped(one, FACT_LETTERS)]
        below = max((width_of(words) for words in facts), default=0.0)
        name = max(width_of(words) for words in wrapped(item.name, NAME_LETTERS))
        needed = max(item.symbol.width, below, min(name, 52.0))
        flow = flow_of(item, readout)
        if flow is not None and not item.before:
            needed = max(needed, BOLD * width_of(flow_text(flow)))
        spread[place.column] = max(spread.get(place.column, 0.0), needed)
    return dict(sorted(spread.items()))


def _rows(spread: dict[int, float]) -> list[Row]:
    """Break the columns into as few rows as fit, about equally long."""
    total = sum(spread.values()) + LEAST_GAP * (len(spread) - 1) + TAIL
    if total <= BROADEST:
        return [Row(list(spread))]
    count = max(int(-(-total // WIDTH)), 1)
    while True:
        rows = _broken(spread, total / count)
        if all(_length(row, spread) <= WIDTH for row in rows):
            return rows
        count += 1


def _broken(spread: dict[int, float], aim: float) -> list[Row]:
    rows, used = [Row([])], 0.0
    for column, width in spread.items():
        if rows[-1].columns and used + width / 2.0 > aim:
            rows.append(Row([]))
            used = 0.0
        rows[-1].columns.append(column)
        used += width + LEAST_GAP
    return rows


def _length(row: Row, spread: dict[int, float]) -> float:
    return sum(spread[c] for c in row.columns) + LEAST_GAP * (len(row.columns) - 1) + TAIL


def _space(row: Row, spread: dict[int, float], *, alone: bool) -> None:
    gaps = max(len(row.columns) - 1, 1)
    free = (WIDTH - _length(row, spread)) / gaps
    gap = LEAST_GAP + min(max(free, 0.0), MOST_GAP - LEAST_GAP)
    x = 0.0
    for column in row.columns:
        row.left[column] = x
        x += spread[column] + gap
    row.width = x - gap + TAIL


def _row(
    items: Sequence[Item],
    places: Sequence[Place],
    readout: Readout,
    row: Row,
    spread: dict[int, float],
    y: float,
    *,
    last: bool,
) -> tuple[list[str], float]:
    """Return one row at a height, and how high it is."""
    here = [i for i, place in enumerate(places) if place.column in row.left]
    x = _lefts(items, places, row, spread, here)
    lanes: dict[int, Lane] = {}
    for i in here:
        _symbol(items[i], x[i], lanes.setdefault(places[i].lane, Lane()), i)
    for i in here:
        _lettering(items, i, x[i], lanes[places[i].lane], readout, row.width)
    ways = Ways(row, spread, x, places)
    for lane, span in ways.spans(items):
        lanes[lane].boxes.append((span[0], -7.0, span[1], 7.0))
    axis = _axes(lanes, y)
    at = max(axis[lane] + drawn.down for lane, drawn in lanes.items())
    along = course(items, main_line(items, places), readout)
    steps = [
        Step(items[i], found, x[i], x[i] + items[i].symbol.width, axis[0] + lanes[0].foot[i])
        for i, found in along.items()
        if i in x and 0 in axis
    ]
    below, height = profiles(steps, readout, at + 10.0, row.width if last else row.width - TAIL)
    strokes = [*below, *gas_lines(items, ways, axis)]
    for lane, drawn in lanes.items():
        strokes.append(moved(0.0, axis[lane], drawn.strokes))
    return strokes, (at + 10.0 + height if below else at) - y


def _axes(lanes: dict[int, Lane], y: float) -> dict[int, float]:
    """Return the height of each lane's axis, each as close below the others as it fits."""
    axis: dict[int, float] = {}
    for lane in sorted(lanes):
        at = y + lanes[lane].up
        if axis:
            at = max(at, max(axis.values()) + LANE)
        while not all(lanes[lane].clear_of(lanes[other], at - axis[other]) for other in axis):
            at += 4.0
        axis[lane] = at
    return axis


def _lefts(
    items: Sequence[Item],
    places: Sequence[Place],
    row: Row,
    spread: dict[int, float],
    here: Sequence[int],
) -> dict[int, float]:
    """Return the left edge of each symbol, in the middle of its column."""
    return {
        i: row.left[column] + (spread[column] - items[i].symbol.width) / 2.0
        for i in here
        for column in (places[i].column,)
    }


def _symbol(item: Item, x: float, lane: Lane, number: int) -> None:
    symbol = item.symbol
    lane.strokes.append(moved(x, 0.0, (*symbol.body, *symbol.marks)))
    down = symbol.down + (16.0 if symbol.marks and not symbol.upright else 0.0)
    lane.boxes.append((x, -symbol.up, x + symbol.width, down))
    lane.foot[number] = down


def _lettering(
    items: Sequence[Item], number: int, x: float, lane: Lane, readout: Readout, width: float
) -> None:
    item = items[number]
    middle = x + item.symbol.width / 2.0
    names = [(words, "") for words in wrapped(item.name, NAME_LETTERS)]
    if is_bottleneck(item, readout):
        names.insert(0, ("▼ bottleneck", "accent"))
    facts = [(words, "soft") for one in item.facts for words in wrapped(one, FACT_LETTERS)]
    flow = flow_of(item, readout)
    if flow is not None and flow_is_news(items, number, flow, readout):
        facts.append((flow_text(flow), "strong"))
    _block(lane, middle, -item.symbol.up - 7.0, names, width, up=True)
    foot = _block(lane, middle, lane.foot[number] + 16.0, facts, width, up=False)
    lane.foot[number] = max(foot, lane.foot[number])


def _block(
    lane: Lane,
    middle: float,
    y: float,
    lines: Sequence[tuple[str, str]],
    width: float,
    *,
    up: bool,
) -> float:
    """Letter a few lines where nothing else stands; return the lowest edge."""
    if not lines:
        return y - 14.0 if not up else y
    half = max(width_of(words) for words, _ in lines) / 2.0
    middle = min(max(middle, half), max(width - half, half))
    height = LEADING * len(lines)
    step = -4.0 if up else 4.0
    while True:
        top = y - height + 3.0 if up else y - 11.0
        box = (middle - half, top, middle + half, top + height)
        if not any(_meet(box, other) for other in lane.boxes):
            break
        y += step
    for place, (words, kind) in enumerate(lines):
        lane.strokes.append(text(middle, box[1] + 11.0 + LEADING * place, words, kind=kind))
    lane.boxes.append(box)
    return box[3]


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] + 3 and b[0] < a[2] + 3 and a[1] < b[3] and b[1] < a[3]
