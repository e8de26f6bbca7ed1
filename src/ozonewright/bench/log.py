"""Events at the bench into the notebook: each once, with its own time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from difflib import get_close_matches
from functools import lru_cache
from typing import Any

from ozonewright.documents.convert_entry import event_record, time_typed
from ozonewright.documents.entry import PEROXIDE_TEST, QUENCH, VALUES, EntryDocument
from ozonewright.documents.section import validated
from ozonewright.errors import Inconsistent, InputError, OutOfBounds
from ozonewright.notebook import Entry, Notebook
from ozonewright.notebook.tables import whole_minutes, with_offset
from ozonewright.records.event import ACTS, Event, Moment

MOST = 200
"""Entries looked back for the last event of the bench."""
KNOWN = 2000
"""Events kept as read, for the count is asked for again and again."""
WORDS = (*ACTS, *VALUES, "setting", "gate", QUENCH, PEROXIDE_TEST)
"""What the count, the clearance or the room understand."""
FASTER = {"gas": "gas on", "discharge": "discharge on", "bottle": "into bottle"}
LONGEST = timedelta(days=366)
"""After which an event is no longer typed; a slip in the year is likelier."""


@dataclass(frozen=True, slots=True)
class Press:
    """What was pressed or typed."""

    what: str
    of: str | None = None
    value: str | None = None
    remark: str | None = None
    method: str | None = None
    by: str | None = None
    ago: float = 0.0
    """Seconds since the press, by the clock of the page that kept it."""
    at: str | None = None
    """A time typed by hand instead."""
    id: str | None = None
    """Of the entry to be; the same press sent twice makes one entry."""


def press(notebook: Notebook, one: Press, now: Moment, source: str) -> Entry:
    """Keep a press and return its entry; the same one again returns the entry that is there."""
    what = known_word(one.what)
    table = {key: value for key, value in _fields(one, what, now) if value is not None}
    return notebook.add("entry", {"entry": table}, source=source, id=one.id, when=now.wall)


def known_word(text: str) -> str:
    """Return what is meant; a word close to one that counts is refused, not kept as a remark."""
    word = " ".join(text.split())
    lowered = word.lower()
    if lowered in WORDS or lowered.startswith("titre of "):
        return lowered
    close = get_close_matches(lowered, WORDS, n=1, cutoff=0.75)
    meant = FASTER.get(lowered) or (close[0] if close else None)
    if meant:
        raise InputError(
            "is this an event of the bench?", where="what", got=text, fix=f'Write "{meant}".'
        )
    return word


def _fields(one: Press, what: str, now: Moment) -> Iterator[tuple[str, Any]]:
    wall = now.wall - timedelta(seconds=one.ago) if one.at is None else _typed_time(one.at, now)
    yield "when", whole_minutes(wall)
    yield "of", (one.of or "").strip() or None
    yield "what", what
    yield "value", one.value
    yield "method", one.method
    yield "by", one.by
    yield "remark", one.remark
    if one.ago >= 1.0:
        yield "sent_after", f"{one.ago:.0f} s"
    if one.at is None and now.steady is not None and one.ago <= now.steady:
        # Pressed before this boot otherwise: only the time of day is known.
        yield "clock", {"monotonic": f"{now.steady - one.ago:.3f} s", "boot": now.boot}


def _typed_time(text: str, now: Moment) -> datetime:
    moment = time_typed(text, now.wall)
    if moment > now.wall:
        raise OutOfBounds(
            "this time is still to come",
            where="at",
            got=text,
            fix="Give the date too if it was yesterday: 2026-05-08T23:58.",
        )
    if now.wall - moment > LONGEST:
        raise OutOfBounds(
            "this is more than a year ago", where="at", got=text, fix="Check the year."
        )
    return moment


def take_back(notebook: Notebook, id: str) -> Entry:
    """Strike out a press; one that is struck out already stays so."""
    entry = notebook.get(id)
    if entry.kind != "entry":
        raise Inconsistent(
            "this is no press", where="id", got=entry.label, fix="Take back an event of the bench."
        )
    if entry.withdrawn:
        return entry
    return notebook.withdraw(entry.id, reason="press taken back")


def logged(notebook: Notebook, of: str) -> list[Entry]:
    """Return the entries of a run or reaction, in the order of their arrival."""
    return notebook.entries(kind="entry", setting=of)


def last_event(notebook: Notebook) -> Entry | None:
    """Return the event that came in last, of whatever run or reaction."""
    entries = notebook.entries(kind="entry", last=MOST)
    return next((one for one in reversed(entries) if one.data["entry"]["what"] in ACTS), None)


def last_of(entries: Sequence[Entry], what: str) -> Entry | None:
    """Return the last entry of a word, such as the gate's answer, or None."""
    return next((one for one in reversed(entries) if one.data["entry"]["what"] == what), None)


def events_of(entries: Sequence[Entry]) -> list[Event]:
    """Return the events among entries."""
    events = (one for one in entries if one.data["entry"]["what"] in ACTS)
    found = (_event(_Revision(one.digest, one)) for one in events)
    return [event for event in found if event is not None]


@dataclass(frozen=True)
class _Revision:
    """A revision of an entry, alike when the fingerprint is."""

    digest: str
    entry: Entry = field(compare=False)


@lru_cache(maxsize=KNOWN)
def _event(revision: _Revision) -> Event | None:
    entry = revision.entry
    document = validated(EntryDocument, entry.data)
    when = document.entry.when or entry.when
    return event_record(
        document,
        id=entry.id,
        when=with_offset(when, entry.offsets.get("entry.when")),
        clock=entry.deed != "revise",
    )
