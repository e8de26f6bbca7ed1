"""The tables of the notebook file, by numbered migrations."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from datetime import UTC, datetime

from ozonewright import __version__
from ozonewright.errors import SchemaTooNew

APPLICATION = 0x4F7A4E62
"""Stands in the header of the file and says whose it is: OzNb."""

FIRST = (
    """CREATE TABLE migration (
        number INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL, version TEXT NOT NULL
    ) STRICT""",
    """CREATE TABLE notebook (
        one INTEGER PRIMARY KEY CHECK (one = 1),
        id TEXT NOT NULL, label TEXT NOT NULL, created TEXT NOT NULL
    ) STRICT""",
    """CREATE TABLE entry (
        number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, kind TEXT NOT NULL
    ) STRICT""",
    # `act` is the number of the first revision of the act; `digest` ties each to its `parent`.
    """CREATE TABLE revision (
        number INTEGER PRIMARY KEY,
        entry INTEGER NOT NULL REFERENCES entry (number),
        revision INTEGER NOT NULL CHECK (revision > 0),
        digest TEXT NOT NULL UNIQUE,
        parent TEXT REFERENCES revision (digest),
        act INTEGER NOT NULL,
        deed TEXT NOT NULL CHECK (deed IN ('add', 'revise', 'withdraw', 'undo')),
        undoes TEXT REFERENCES revision (digest),
        at TEXT NOT NULL,
        by TEXT,
        label TEXT NOT NULL,
        setting TEXT,
        reason TEXT,
        source TEXT NOT NULL,
        withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
        aside INTEGER NOT NULL CHECK (aside IN (0, 1)),
        imported INTEGER NOT NULL CHECK (imported IN (0, 1)),
        body TEXT NOT NULL,
        offsets TEXT NOT NULL,
        pins TEXT NOT NULL,
        UNIQUE (entry, revision)
    ) STRICT""",
    "CREATE INDEX revision_label ON revision (label)",
    "CREATE INDEX revision_setting ON revision (setting) WHERE setting IS NOT NULL",
    "CREATE INDEX revision_undoes ON revision (undoes) WHERE undoes IS NOT NULL",
    """CREATE TABLE result (
        number INTEGER PRIMARY KEY,
        revision INTEGER NOT NULL REFERENCES revision (number),
        kind TEXT NOT NULL, version TEXT NOT NULL, at TEXT NOT NULL, body TEXT NOT NULL,
        UNIQUE (revision, kind, version, body)
    ) STRICT""",
    # The current revision of an entry is its last one that was not put aside.
    """CREATE VIEW head AS SELECT r.*, e.id, e.kind FROM revision r
        JOIN entry e ON e.number = r.entry
        WHERE r.aside = 0 AND NOT EXISTS (
            SELECT 1 FROM revision n
            WHERE n.entry = r.entry AND n.revision > r.revision AND n.aside = 0)""",
)
APPEND_ONLY = ("migration", "notebook", "entry", "revision", "result")
KEYS = {"entry": "id", "revision": "digest"}
"""What INSERT OR REPLACE could strike out without any delete being seen."""


def _first_tables(connection: sqlite3.Connection) -> None:
    for statement in FIRST:
        connection.execute(statement)
    for table in APPEND_ONLY:
        for act in ("UPDATE", "DELETE"):
            connection.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
            )
    for table, key in KEYS.items():
        connection.execute(
            f"CREATE TRIGGER {table}_once BEFORE INSERT ON {table} "
            f"WHEN EXISTS (SELECT 1 FROM {table} WHERE {key} = new.{key} OR number = new.number) "
            f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
        )


MIGRATIONS: tuple[tuple[str, Callable[[sqlite3.Connection], None]], ...] = (
    ("first tables", _first_tables),
)
"""In order; the number of a migration is its place, from 1."""


def version_of(connection: sqlite3.Connection) -> int:
    """Return how many migrations the file has seen."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def refuse_newer(connection: sqlite3.Connection, path: str) -> None:
    """Refuse a file that a newer program has changed."""
    found = version_of(connection)
    if found > len(MIGRATIONS):
        raise SchemaTooNew(
            "this notebook was written by a newer ozonewright",
            where=path,
            got=f"schema {found}; this program ({__version__}) knows {len(MIGRATIONS)}",
            fix="Nothing was changed. Install the newer ozonewright, or export the notebook there "
            "and import the folder into a new notebook here.",
        )


def migrate(
    connection: sqlite3.Connection, fill: Callable[[sqlite3.Connection], None] | None = None
) -> None:
    """Bring the file up to this program: changes and their record in one transaction.

    `fill` writes the first rows of a new notebook in the same transaction.
    """
    if version_of(connection) >= len(MIGRATIONS):
        return
    connection.execute("BEGIN IMMEDIATE")
    try:
        # Read again: another process may have done it while we waited.
        for number in range(version_of(connection) + 1, len(MIGRATIONS) + 1):
            name, change = MIGRATIONS[number - 1]
            change(connection)
            connection.execute(
                "INSERT INTO migration VALUES (?, ?, ?, ?)",
                (number, name, datetime.now(UTC).isoformat(timespec="seconds"), __version__),
            )
            connection.execute(f"PRAGMA user_version = {number}")
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        if fill is not None:
            fill(connection)
        connection.execute("COMMIT")
    except BaseException:
        # A full disk has rolled back already.
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
