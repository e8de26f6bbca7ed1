"""What was typed at each place of an entry, and what each revision changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ozonewright.notebook import Entry
from ozonewright.web.form import differences, leaves
from ozonewright.web.view import moment

DEEDS = {
    "add": "Entered",
    "revise": "Corrected",
    "withdraw": "Withdrawn",
    "undo": "Undone",
}


@dataclass(frozen=True, slots=True)
class Earlier:
    """What stood at a place before."""

    text: str
    why: str


@dataclass(frozen=True, slots=True)
class Reading:
    """One place of the document as typed, with what stood there before."""

    label: str
    text: str
    before: tuple[Earlier, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """One place that a revision changed."""

    label: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Event:
    """One revision."""

    what: str
    when: str
    by: str
    changes: tuple[Change, ...] = ()


def readings(history: Sequence[Entry], words: Mapping[str, str]) -> Iterator[Reading]:
    """Yield what is typed now, in the order of the form, with what stood there before."""
    now = dict(leaves(history[-1].data))
    before: dict[str, list[Earlier]] = {}
    for older, newer in pairwise(history):
        why = f"{newer.reason or newer.deed}, {moment(newer.when)}"
        for place, old, _ in differences(older.data, newer.data):
            if old:
                before.setdefault(place, []).insert(0, Earlier(old, why))
    order = {place: number for number, place in enumerate(words)}
    for place in sorted({**now, **before}, key=lambda place: order.get(place, len(order))):
        yield Reading(words.get(place, place), now.get(place, ""), tuple(before.get(place, ())))


def events(history: Sequence[Entry], words: Mapping[str, str]) -> Iterator[Event]:
    """Yield each revision, the last first."""
    for number in reversed(range(len(history))):
        entry = history[number]
        changes = differences(history[number - 1].data, entry.data) if number else ()
        reason = f": {entry.reason}" if entry.reason and entry.deed != "undo" else ""
        yield Event(
            f"{DEEDS[entry.deed]}{reason}",
            moment(entry.when),
            entry.by or "",
            tuple(Change(words.get(place, place), old, new) for place, old, new in changes),
        )
