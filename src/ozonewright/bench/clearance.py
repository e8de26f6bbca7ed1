"""Whether a reaction's solution may be evaporated: its document and its entries of the notebook."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ozonewright.bench.log import Press, events_of, press
from ozonewright.documents.convert_reaction import reaction_record
from ozonewright.documents.entry import (
    PEROXIDE_TEST,
    QUENCH,
    EntryDocument,
    EntrySection,
    peroxide_reading,
)
from ozonewright.documents.reaction import ReactionDocument
from ozonewright.documents.section import validated
from ozonewright.documents.typed import typed
from ozonewright.errors import Inconsistent, NotFound, nearest
from ozonewright.notebook import Entry, Notebook
from ozonewright.notebook.tables import with_offset
from ozonewright.questions.clearance import Clearance, clearance
from ozonewright.records.clearance import Flask, PeroxideTest
from ozonewright.records.event import Moment
from ozonewright.records.reaction import Reaction
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

OPENING = ("discharge on", "into bottle")
"""Events that let ozone into the flask."""


def clearance_of(notebook: Notebook, label: str, now: datetime) -> Clearance:
    """Return whether the reaction of this label is clear, at a time with its offset."""
    reaction = _reaction(notebook, label)
    entries = notebook.entries(kind="entry", setting=label, withdrawn=True)
    if reaction is None and not entries:
        known = [one.label for one in notebook.entries(kind="reaction")]
        raise NotFound(
            "no reaction of this label, and nothing logged of one",
            got=label,
            fix=nearest(label, known) if known else "Add the reaction to the notebook first.",
        )
    standing = [one for one in entries if not one.withdrawn]
    quench = _last(one for one in standing if _section(one).what == QUENCH)
    ozone = [one.at.wall for one in events_of(standing) if one.what in OPENING]
    return clearance(
        Flask(
            label=label,
            now=now,
            reaction=reaction,
            quenched=_when(quench) if quench else None,
            waiting=_stated(quench) if quench else None,
            ozone=max(ozone, default=None),
            tests=tuple(sorted(_tests(notebook, entries), key=lambda one: one.when)),
        )
    )


def log_test(
    notebook: Notebook,
    label: str,
    reading: str,
    now: Moment,
    *,
    method: str | None = None,
    by: str | None = None,
    at: str | None = None,
) -> Entry:
    """Keep a peroxide test of a reaction."""
    one = Press(PEROXIDE_TEST, label, reading, method=method, by=by, at=at)
    return press(notebook, one, now, "page")


def log_quench(
    notebook: Notebook, label: str, now: Moment, *, takes: str | None, at: str | None
) -> Entry:
    """Keep that the quench was added, and how long it is to take."""
    return press(notebook, Press(QUENCH, label, takes, at=at), now, "page")


def reactions(notebook: Notebook) -> tuple[str, ...]:
    """Return the labels of all reactions, the last first."""
    return tuple(one.label for one in reversed(notebook.entries(kind="reaction")))


def _reaction(notebook: Notebook, label: str) -> Reaction | None:
    found = [one for one in notebook.labelled(label) if one.kind == "reaction"]
    if len(found) > 1:
        raise Inconsistent(
            "more than one reaction has this label",
            got=label,
            fix="Give one of them another label.",
        )
    return reaction_record(validated(ReactionDocument, found[0].data)) if found else None


def _section(entry: Entry) -> EntrySection:
    return validated(EntryDocument, entry.data).entry


def _when(entry: Entry) -> datetime:
    when = _section(entry).when or entry.when
    return with_offset(when, entry.offsets.get("entry.when"))


def _last(entries: Iterator[Entry]) -> Entry | None:
    return max(entries, key=_when, default=None)


def _stated(entry: Entry) -> Measured | None:
    value = _section(entry).value
    return typed(value, (Kind.TIME,), above=0.0).measured("quench time") if value else None


def _tests(notebook: Notebook, entries: list[Entry]) -> Iterator[PeroxideTest]:
    """Yield the tests; what was positive once stays positive, corrected or struck out."""
    for entry in entries:
        section = _section(entry)
        if section.what != PEROXIDE_TEST:
            continue
        once = any(_says_positive(one) for one in notebook.history(entry.id))
        now = _says_positive(entry) and not entry.withdrawn
        if entry.withdrawn and not once:
            continue
        yield PeroxideTest(
            when=_when(entry),
            reading="positive" if once else "negative",
            method=section.method,
            by=section.by or entry.by,
            changed=once and not now,
        )


def _says_positive(entry: Entry) -> bool:
    section = _section(entry)
    value = section.value or ""
    return section.what == PEROXIDE_TEST and peroxide_reading(value) == "positive"
