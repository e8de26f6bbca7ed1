"""The rows of a wide drawing, and the line of gas between the items of each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from ozonewright.show.drawing.layout import Item, Place, followers
from ozonewright.show.drawing.pen import Point, arrow, line


@dataclass
class Row:
    """A stretch of columns that fits the width, with the left edge of each."""

    columns: list[int]
    left: dict[int, float] = field(default_factory=dict)
    width: float = 0.0


@dataclass
class Ways:
    """Where the line of gas runs between the items of a row."""

    row: Row
    spread: dict[int, float]
    x: dict[int, float]
    places: Sequence[Place]

    def leaves(self, items: Sequence[Item], i: int) -> tuple[float, float]:
        """Return where gas leaves an item, and where its column ends."""
        column = self.places[i].column
        return self.x[i] + items[i].symbol.width, self.row.left[column] + self.spread[column] + 4.0

    def enters(self, j: int) -> tuple[float, float]:
        """Return where gas comes into an item, and where its column begins."""
        return self.x[j], self.row.left[self.places[j].column] - 5.0

    def spans(self, items: Sequence[Item]) -> Iterator[tuple[int, tuple[float, float]]]:
        """Yield each level stretch in a lane below the first, so that nothing is put across it."""
        for j, item in enumerate(items):
            for i in item.before:
                if i not in self.x or j not in self.x:
                    continue
                low = max(self.places[i].lane, self.places[j].lane)
                if self.places[i].lane != self.places[j].lane:
                    yield low, (self.leaves(items, i)[0], self.enters(j)[0])

    def way(
        self, items: Sequence[Item], axis: dict[int, float], i: int, j: int
    ) -> tuple[list[Point], bool]:
        """Return the points from one item to the next, and whether the way leaves the row."""
        if i not in self.x:
            x, y = self.enters(j)[0], axis[self.places[j].lane]
            return [(min(0.0, x - 12.0), y), (x, y)], False
        (out, past), high = self.leaves(items, i), axis[self.places[i].lane]
        if j not in self.x:
            return [(out, high), (self.row.width - 10.0, high)], True
        (into, ahead), low = self.enters(j), axis[self.places[j].lane]
        if high == low:
            return [(out, high), (into, low)], False
        bend = past if self.places[i].lane < self.places[j].lane else ahead
        return [(out, high), (bend, high), (bend, low), (into, low)], False


def gas_lines(items: Sequence[Item], edges: Ways, axis: dict[int, float]) -> list[str]:
    """Return the line that gas runs along: into, out of and between the items of a row."""
    strokes = []
    after = followers(items)
    for i, left in edges.x.items():
        symbol, at = items[i].symbol, axis[edges.places[i].lane]
        for leg in (symbol.inlet, symbol.outlet):
            strokes.append(line("gas", [(left + a, at + b) for a, b in leg]))
        if not after[i] and symbol.outlet:
            out = left + symbol.width
            strokes += [line("gas", [(out, at), (out + 14.0, at)]), arrow(out + 22.0, at)]
    for j, item in enumerate(items):
        for i in item.before:
            if i in edges.x or j in edges.x:
                points, leaves = edges.way(items, axis, i, j)
                strokes.append(line("gas", points))
                if leaves:
                    strokes.append(arrow(edges.row.width, points[-1][1]))
    return [stroke for stroke in strokes if stroke]
