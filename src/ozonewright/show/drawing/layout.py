"""Which part stands where: columns in flow order, branches in lanes below the main line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ozonewright.records.rig import Part, Rig
from ozonewright.show.drawing.facts import facts
from ozonewright.show.drawing.symbols import Symbol, symbol_of

HOLDERS = ("bottle", "tail bottle")


@dataclass(frozen=True, slots=True)
class Item:
    """One thing drawn: a part, or a bottle with the sparger in it."""

    parts: tuple[Part, ...]
    symbol: Symbol
    before: tuple[int, ...]
    """Items that gas comes from, by number."""

    @property
    def name(self) -> str:
        """The words over it."""
        return self.parts[-1].name

    @property
    def facts(self) -> tuple[str, ...]:
        """What is said of it, the holder before what it holds."""
        return tuple(text for part in reversed(self.parts) for text in facts(part))


@dataclass(frozen=True, slots=True)
class Place:
    """Where an item stands."""

    column: int
    lane: int


def items_of(rig: Rig) -> list[Item]:
    """Return the items of a rig, in the order written; a sparger goes into its bottle."""
    inside = _held(rig.parts)
    number: dict[str, int] = {}
    groups: list[tuple[Part, ...]] = []
    for part in rig.parts:
        if part.name in inside:
            continue
        held = next((p for p in rig.parts if inside.get(p.name) == part.name), None)
        group = (held, part) if held else (part,)
        for one in group:
            number[one.name] = len(groups)
        groups.append(group)
    return [
        Item(
            parts=group,
            symbol=symbol_of(group[-1], group[0] if len(group) > 1 else None),
            before=tuple(number[name] for name in group[0].after),
        )
        for group in groups
    ]


def _held(parts: Sequence[Part]) -> dict[str, str]:
    """Return the bottle that each sparger stands in: the one part that follows it alone."""
    following: dict[str, list[Part]] = {}
    for part in parts:
        for name in part.after:
            following.setdefault(name, []).append(part)
    held = {}
    for part in parts:
        behind = following.get(part.name, [])
        if part.kind == "sparger" and len(behind) == 1:
            holder = behind[0]
            if holder.kind in HOLDERS and holder.after == (part.name,):
                held[part.name] = holder.name
    return held


def places_of(items: Sequence[Item]) -> list[Place]:
    """Return column and lane of each item; the longest way through is lane 0."""
    after = followers(items)
    columns = _columns(items, after)
    left = set(range(len(items)))
    lanes: dict[int, int] = {}
    taken: list[list[tuple[int, int]]] = []
    while left:
        chain = _longest(items, left, columns)
        left -= set(chain)
        sources = [columns[i] for i in items[chain[0]].before]
        ends = [columns[i] for i in after[chain[-1]]]
        span = (min([columns[chain[0]], *sources]), max([columns[chain[-1]], *ends]))
        lane = _free(taken, span)
        for item in chain:
            lanes[item] = lane
    return [Place(columns[i], lanes[i]) for i in range(len(items))]


def followers(items: Sequence[Item]) -> list[list[int]]:
    """Return for each item those that follow it."""
    after: list[list[int]] = [[] for _ in items]
    for place, item in enumerate(items):
        for one in item.before:
            after[one].append(place)
    return after


def _columns(items: Sequence[Item], after: Sequence[Sequence[int]]) -> list[int]:
    """Return how many items stand before each on its longest way; a ring ends where it closes."""
    columns = [0] * len(items)
    waiting = [len(item.before) for item in items]
    ready = [i for i, count in enumerate(waiting) if not count]
    seen = 0
    while ready:
        one = ready.pop(0)
        seen += 1
        for other in after[one]:
            columns[other] = max(columns[other], columns[one] + 1)
            waiting[other] -= 1
            if not waiting[other]:
                ready.append(other)
    if seen < len(items):
        most = max(columns)
        for i, count in enumerate(waiting):
            if count > 0:
                most += 1
                columns[i] = most
    return columns


def _longest(items: Sequence[Item], left: set[int], columns: Sequence[int]) -> list[int]:
    """Return the longest chain of items that have no lane yet, in flow order."""
    length: dict[int, int] = {}
    source: dict[int, int | None] = {}
    for i in sorted(left, key=lambda one: (columns[one], one)):
        best = max(
            (j for j in items[i].before if j in length),
            key=lambda j: (length[j], -j),
            default=None,
        )
        length[i] = 1 + (length[best] if best is not None else 0)
        source[i] = best
    end: int | None = max(length, key=lambda i: (length[i], -i))
    chain: list[int] = []
    while end is not None:
        chain.insert(0, end)
        end = source[end]
    return chain


def _free(taken: list[list[tuple[int, int]]], span: tuple[int, int]) -> int:
    """Return the first lane with room for these columns, and take it."""
    for lane, spans in enumerate(taken):
        if lane and all(span[1] <= a or span[0] >= b for a, b in spans):
            spans.append(span)
            return lane
    taken.append([span])
    return len(taken) - 1


def main_line(items: Sequence[Item], places: Iterable[Place]) -> list[int]:
    """Return the items of lane 0, in flow order."""
    numbered = [(place.column, i) for i, place in enumerate(places) if place.lane == 0]
    return [i for _, i in sorted(numbered)]
