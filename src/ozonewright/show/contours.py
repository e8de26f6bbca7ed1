"""Bands and lines of a field on a grid, as paths of a drawing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Place = tuple[float, float]
"""Across and up, in the units of the grid's own axes."""
Corner = tuple[float, float, float]
"""Across, up, height."""
Drawn = Callable[[Place], Place]


def levels(field: Array, wanted: int = 8) -> list[float]:
    """Return round heights between the lowest and the highest, about as many as wanted."""
    low, high = float(field.min()), float(field.max())
    if high <= low:
        return []
    raw = (high - low) / wanted
    power = 10.0 ** np.floor(np.log10(raw))
    step = next(float(s * power) for s in (1.0, 2.0, 5.0, 10.0) if s * power >= raw * 0.999)
    first = int(np.floor(low / step)) + 1
    return [round(n * step, 12) for n in range(first, int(np.ceil(high / step)))]


def band(x: Array, y: Array, field: Array, level: float, drawn: Drawn) -> str:
    """Return the path of all that lies at or above a level; `field` has shape (x, y)."""
    whole = (field[:-1, :-1] >= level) & (field[1:, :-1] >= level)
    whole = whole & (field[:-1, 1:] >= level) & (field[1:, 1:] >= level)
    parts = [_ring(corners, drawn) for corners in _blocks(x, y, whole)]
    for i, j in np.argwhere(~whole):
        kept = _above(_cell(x, y, field, int(i), int(j)), level)
        if len(kept) > 2:
            parts.append(_ring([(a, b) for a, b, _ in kept], drawn))
    return "".join(parts)


def line(x: Array, y: Array, field: Array, level: float) -> list[tuple[Place, Place]]:
    """Return the pieces of the line along which the field has this height."""
    found = []
    for i in range(len(x) - 1):
        for j in range(len(y) - 1):
            crossed = list(_crossings(_cell(x, y, field, i, j), level))
            found += list(zip(crossed[::2], crossed[1::2], strict=False))
    return found


def line_path(pieces: Sequence[tuple[Place, Place]], drawn: Drawn) -> str:
    """Return pieces of a line as one path, those that touch joined."""
    ends = [(_at(one, drawn), _at(other, drawn)) for one, other in pieces]
    ends = [(one, other) for one, other in ends if one != other]
    beside: dict[str, list[int]] = {}
    for number, pair in enumerate(ends):
        for end in pair:
            beside.setdefault(end, []).append(number)
    left = set(range(len(ends)))
    # a line that ends at the rim is followed from there, what is left is closed
    order = sorted(left, key=lambda number: min(len(beside[end]) for end in ends[number]))
    parts = []
    for first in order:
        if first in left:
            left.discard(first)
            parts.append("M" + "L".join(_followed(ends, beside, left, first)))
    return "".join(parts)


def _followed(
    ends: Sequence[tuple[str, str]], beside: Mapping[str, list[int]], left: set[int], first: int
) -> Iterator[str]:
    """Yield the places along a line from its first piece on; the pieces are taken from `left`."""
    one, other = ends[first]
    if len(beside[other]) < len(beside[one]):
        one, other = other, one
    yield one
    while True:
        yield other
        following = next((number for number in beside[other] if number in left), None)
        if following is None:
            return
        left.discard(following)
        pair = ends[following]
        other = pair[1] if pair[0] == other else pair[0]


def _cell(x: Array, y: Array, field: Array, i: int, j: int) -> list[Corner]:
    """Return the corners of a cell, once around."""
    around = ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))
    return [(float(x[a]), float(y[b]), float(field[a, b])) for a, b in around]


def _between(one: Corner, other: Corner, level: float) -> Place:
    share = (level - one[2]) / (other[2] - one[2])
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def _crossings(corners: Sequence[Corner], level: float) -> Iterator[Place]:
    for one, other in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (one[2] >= level) != (other[2] >= level):
            yield _between(one, other, level)


def _above(corners: Sequence[Corner], level: float) -> list[Corner]:
    """Return the part of a cell at or above a level."""
    kept: list[Corner] = []
    for one, other in zip(corners, [*corners[1:], corners[0]], strict=True):
        if one[2] >= level:
            kept.append(one)
        if (one[2] >= level) != (other[2] >= level):
            kept.append((*_between(one, other, level), level))
    return kept


def _blocks(x: Array, y: Array, whole: NDArray[np.bool_]) -> Iterator[list[Place]]:
    """Yield the cells that are wholly above, those of one row that touch as one."""
    for j in range(whole.shape[1]):
        i = 0
        while i < whole.shape[0]:
            if not whole[i, j]:
                i += 1
                continue
            begun = i
            while i < whole.shape[0] and whole[i, j]:
                i += 1
            left, right = float(x[begun]), float(x[i])
            foot, top = float(y[j]), float(y[j + 1])
            yield [(left, foot), (right, foot), (right, top), (left, top)]


def _ring(places: Sequence[Place], drawn: Drawn) -> str:
    return "M" + "L".join(_at(place, drawn) for place in places) + "z"


def _at(place: Place, drawn: Drawn) -> str:
    across, up = drawn(place)
    return f"{across:.1f} {up:.1f}"
