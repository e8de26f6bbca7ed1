"""What the detector in a room says: its readings and the ozone's on and off, of the notebook."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from ozonewright.bench.log import events_of, logged
from ozonewright.documents.convert_entry import logged_quantity
from ozonewright.documents.entry import EntryDocument
from ozonewright.documents.section import validated
from ozonewright.errors import MissingValue
from ozonewright.notebook import Entry, Notebook
from ozonewright.notebook.tables import with_offset
from ozonewright.questions.room.detector import DetectorAnswer, detector_answer
from ozonewright.records.detector import DetectorLog, DetectorReading
from ozonewright.records.event import Event
from ozonewright.records.room import Room

DETECTOR = "detector"


def read_detector(notebook: Notebook, room: Room) -> DetectorAnswer:
    """Return what the readings logged of a room tell of it."""
    if room.label is None:
        raise MissingValue(
            "a room without a label has no entries",
            where="room.label",
            fix='Write label = "workshop", and log the readings of that label.',
        )
    entries = logged(notebook, room.label)
    events = sorted(events_of(entries), key=lambda event: event.at.wall)
    return detector_answer(room, DetectorLog(_readings(entries), _releases(events), bool(events)))


def _readings(entries: Sequence[Entry]) -> tuple[DetectorReading, ...]:
    found = []
    for entry in entries:
        document = validated(EntryDocument, entry.data)
        value = logged_quantity(document) if document.entry.what == DETECTOR else None
        if value is None:
            continue
        when = with_offset(document.entry.when or entry.when, entry.offsets.get("entry.when"))
        found.append(DetectorReading(when, value.measured("detector")))
    return tuple(sorted(found, key=lambda one: one.when))


def _releases(events: Sequence[Event]) -> tuple[tuple[datetime, datetime | None], ...]:
    """Return begin and end of each stretch with the discharge on."""
    spans: list[tuple[datetime, datetime | None]] = []
    for event in events:
        wall = event.at.wall
        running = bool(spans) and spans[-1][1] is None
        if event.what == "discharge on" and not running:
            spans.append((wall, None))
        elif event.what in ("discharge off", "stop") and running:
            spans[-1] = (spans[-1][0], wall)
    return tuple(spans)
