"""What was typed, and what stood there before, as tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ozonewright.documents.leaves import leaves
from ozonewright.notebook import Entry
from ozonewright.show.notebook import WHEN, changes
from ozonewright.show.sheet.blocks import Block, Table

DEEDS = {"revise": "corrected", "withdraw": "withdrawn", "undo": "undone"}


def as_typed(entry: Entry) -> Table:
    """Return every filled place of a document with its text, a row for each of its tables."""
    tables: dict[str, list[str]] = {}
    for place, text in leaves(entry.data):
        table, _, field = place.rpartition(", ")
        tables.setdefault(table, []).append(f"{field.replace('_', ' ')}: {text}")
    rows = tuple((table, " · ".join(fields)) for table, fields in tables.items())
    return Table("As typed", ("table", "fields"), rows)


def corrections(history: Sequence[Entry]) -> Table:
    """Return what later revisions changed, when and why."""
    return Table("Corrections", ("when", "what", "change"), tuple(_corrections(history)))


def _corrections(history: Sequence[Entry]) -> Iterator[tuple[str, str, str]]:
    for before, after in pairwise(history):
        reason = f" ({after.reason})" if after.reason else ""
        by = f", {after.by}" if after.by and after.by != before.by else ""
        what = f"{DEEDS.get(after.deed, after.deed)}{reason}{by}"
        told = list(changes(before.data, after.data)) or [""]
        for line in told:
            yield f"{after.when:{WHEN}}", what, line


def document(history: Sequence[Entry]) -> tuple[Block, ...]:
    """Return a document as it stands, and how it came to be."""
    return as_typed(history[-1]), corrections(history)


def logged(entries: Sequence[Entry]) -> Table:
    """Return what was logged at the bench."""
    head = ("when", "of", "what", "value", "remark", "by")
    return Table("Logged at the bench", head, tuple(_logged(one) for one in entries))


def _logged(entry: Entry) -> tuple[str, ...]:
    main = entry.data.get("entry") or {}
    when = str(main.get("when") or f"{entry.when:{WHEN}}")
    of, what, value, remark, by = (
        str(main.get(name) or "") for name in ("of", "what", "value", "remark", "by")
    )
    return when.replace("T", " "), of, what, value, remark, by


def struck_out(entries: Sequence[Entry]) -> Table:
    """Return what was withdrawn, and why."""
    rows = tuple((one.label, one.kind, f"{one.when:{WHEN}}", one.reason or "") for one in entries)
    return Table("Struck out, and kept", ("label", "kind", "when", "why"), rows)
