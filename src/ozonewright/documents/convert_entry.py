"""From an entry document to its numeric twin: an event of the bench, or a quantity logged."""

from __future__ import annotations

import re
from datetime import datetime

from ozonewright.documents.entry import EntryDocument, kinds_of, quantity_of
from ozonewright.documents.typed import Typed
from ozonewright.errors import InputError
from ozonewright.records.event import ACTS, Event, Moment

_CLOCK = re.compile(r"\d{1,2}:\d\d(:\d\d)?")


def event_record(
    document: EntryDocument, *, id: str, when: datetime, clock: bool = True
) -> Event | None:
    """Return the event of an entry, or None where it is another kind of note.

    `clock` is false where the time was corrected by hand: then the time of day counts.
    """
    entry = document.entry
    act = next((one for one in ACTS if one == entry.what), None)
    if act is None:
        return None
    known = entry.clock if clock else None
    return Event(
        id=id,
        what=act,
        at=Moment(
            wall=when,
            steady=known.monotonic.value if known else None,
            boot=known.boot if known else None,
        ),
        sent_after=entry.sent_after.value if entry.sent_after else 0.0,
    )


def time_typed(text: str, now: datetime) -> datetime:
    """Return a time typed by hand: ``12:03``, ``12:03:05`` of today, or with its date."""
    word = text.strip()
    if _CLOCK.fullmatch(word):
        word = f"{now:%Y-%m-%d}T{word.zfill(5) if word.count(':') == 1 else word.zfill(8)}"
    try:
        moment = datetime.fromisoformat(word)
    except ValueError:
        raise InputError(
            "this is no time",
            where="at",
            got=text,
            fix="Write 12:03, 12:03:05, or 2026-05-09T12:03.",
        ) from None
    return moment.astimezone() if moment.tzinfo is None else moment


def logged_quantity(document: EntryDocument) -> Typed | None:
    """Return the quantity that an entry holds, or None where its word asks for none."""
    entry = document.entry
    if entry.value is None or not kinds_of(entry.what):
        return None
    return quantity_of(entry.what, entry.value)
