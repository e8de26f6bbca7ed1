"""The line from top to bottom, what is known of each part to its right: for a narrow sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ozonewright.show.drawing.figures import (
    SMALL,
    behind,
    concentration_text,
    drop,
    flow_is_news,
    flow_of,
    flow_text,
    is_bottleneck,
    kpa,
    loses_most,
    pressure_in,
)
from ozonewright.show.drawing.layout import Item, Place, followers
from ozonewright.show.drawing.pen import Point, arrow, line, moved, text, wrapped
from ozonewright.show.drawing.readout import Readout
from ozonewright.units import Kind, size

WIDTH = 358.0
AXIS, ASIDE = 66.0, 72.0
WORDS, WORDS_ASIDE = 134.0, 212.0
LETTERS, LETTERS_ASIDE = 29, 19
LEAD, LEADING = 9.0, 16.0


@dataclass(frozen=True, slots=True)
class Block:
    """One item and its words, between two heights on its axis."""

    axis: float
    top: float
    bottom: float


def tall(
    items: Sequence[Item], places: Sequence[Place], readout: Readout
) -> tuple[list[str], float, float]:
    """Return strokes, width and height."""
    order = sorted(range(len(items)), key=lambda i: (places[i].column, places[i].lane))
    aside = any(place.lane for place in places)
    after = followers(items)
    blocks: dict[int, Block] = {}
    drawn: list[str] = []
    y = 6.0
    for i in order:
        axis = AXIS + (ASIDE if places[i].lane else 0.0)
        strokes, bottom = _symbol(items[i], axis, y + LEAD)
        words = list(_words(items, i, readout, LETTERS_ASIDE if aside else LETTERS))
        middle = (y + LEAD + bottom) / 2.0
        first = max(middle - LEADING * (len(words) - 1) / 2.0 + 4.0, y + 14.0)
        for place, (said, kind) in enumerate(words):
            x = WORDS_ASIDE if aside else WORDS
            drawn.append(text(x, first + LEADING * place, said, "start", kind))
        end = max(bottom + LEAD, first + LEADING * (len(words) - 1) + 12.0)
        blocks[i] = Block(axis, y, end)
        if items[i].before:
            drawn.append(line("gas", [(axis, y), (axis, y + LEAD)]))
        drawn += strokes
        if after[i] or items[i].symbol.outlet:
            drawn.append(line("gas", [(axis, bottom), (axis, end)]))
        if not after[i] and items[i].symbol.outlet:
            drawn.append(arrow(axis, end + 8.0, down=True))
            end += 12.0
        y = end
    joints = [_joint(blocks[i], blocks[j]) for j, item in enumerate(items) for i in item.before]
    return [*joints, *drawn], WIDTH, y + 8.0


def _symbol(item: Item, axis: float, y: float) -> tuple[list[str], float]:
    """Return an item drawn with its inlet at a height, and the height of its outlet."""
    symbol = item.symbol
    if not symbol.upright:
        leads = [line("gas", list(way)) for way in (symbol.inlet, symbol.outlet) if way]
        return [moved(axis, y, [*leads, *symbol.body], turned=True)], y + symbol.width
    top = symbol.above[0][1] if symbol.above else -symbol.up
    leads = [line("gas", list(way)) for way in (symbol.above, symbol.below) if way]
    strokes = [moved(axis - symbol.axis, y - top, [*leads, *symbol.body])]
    return strokes, y - top + symbol.below[-1][1]


def _joint(before: Block, behind_it: Block) -> str:
    """Return the line from one block to the next, to another axis where it must."""
    start: Point = (before.axis, before.bottom)
    end: Point = (behind_it.axis, behind_it.top)
    if before.axis < behind_it.axis:
        return line("gas", [start, (behind_it.axis, before.bottom), end])
    return line("gas", [start, (before.axis, behind_it.top), end])


def _words(
    items: Sequence[Item], number: int, readout: Readout, letters: int
) -> Iterator[tuple[str, str]]:
    item = items[number]
    for said in wrapped(item.name, letters):
        yield said, "strong"
    if is_bottleneck(item, readout):
        yield "◀ bottleneck", "accent"
    elif loses_most(item, readout):
        yield "largest loss", "accent"
    for said in wrapped(", ".join(item.facts), letters):
        yield said, "soft"
    for said in wrapped(_pressure(item, readout), letters):
        yield said, ""
    flow, found = flow_of(item, readout), behind(item, readout)
    if flow is not None and flow_is_news(items, number, flow, readout):
        yield flow_text(flow), ""
    if found is not None:
        yield f"{concentration_text(found)} g/Nm³ behind it", ""


def _pressure(item: Item, readout: Readout) -> str:
    pressure, lost = pressure_in(item, readout), drop(item, readout)
    if pressure is None or not item.before:
        return ""
    if lost is None or lost < SMALL * size(Kind.PRESSURE_DIFFERENCE, "kPa"):
        return f"{kpa(pressure)} kPa"
    return f"{kpa(pressure)} kPa, loses {kpa(lost)}"
