"""Is the file sound: pages, tables, guards, and every revision's fingerprint."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing

from ozonewright.errors import AppError
from ozonewright.notebook.acts import carried
from ozonewright.notebook.reading import REVISION
from ozonewright.notebook.schema import migrate
from ozonewright.notebook.store import Store
from ozonewright.notebook.tables import returned

OBJECTS = "SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL"


def faults_of(store: Store) -> list[str]:
    """Return what is wrong, in words; empty when the file is sound."""
    try:
        found = [row[0] for row in store.rows("PRAGMA integrity_check(20)") if row[0] != "ok"]
        found += [f"broken link in {row[0]}" for row in store.rows("PRAGMA foreign_key_check")]
        return [*found, *_strange_schema(store), *_revisions(store)]
    except AppError as error:
        return [error.got or error.what]


def _strange_schema(store: Store) -> Iterator[str]:
    """Compare tables and guards with those of a new notebook."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as new:
        migrate(new)
        wanted = dict(new.execute(OBJECTS).fetchall())
    here = {row["name"]: row["sql"] for row in store.rows(OBJECTS)}
    for name, text in wanted.items():
        if here.get(name) != text:
            yield f"{name} is {'missing' if name not in here else 'not as this program made it'}"
    for name in here.keys() - wanted.keys():
        yield f"{name} does not belong in a notebook"


def _revisions(store: Store) -> Iterator[str]:
    """Recompute every fingerprint and follow the revisions of each entry."""
    last: dict[str, int] = {}
    known: set[str] = set()
    for row in store.rows(REVISION + "ORDER BY r.number"):
        place = f"{row['label']} ({row['id']}), revision {row['revision']}"
        try:
            one = carried(row, returned(row["body"]))
        except (ValueError, AssertionError):
            yield f"{place} can't be read"
            continue
        if one.digest != row["digest"]:
            yield f"{place} is not what was written"
        if row["revision"] != last.get(row["id"], 0) + 1:
            yield f"{place} does not follow the revision before"
        if row["parent"] is not None and row["parent"] not in known:
            yield f"{place} rests on a revision that is missing"
        for field, text in (("by", one.field("by")), ("setting", one.group)):
            if text != row[field]:
                yield f"{place} is listed under another {field} than its text has"
        known.add(row["digest"])
        last[row["id"]] = row["revision"]
