"""The notebook as the other floors see it."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from ozonewright.documents.kinds import check, kind_of
from ozonewright.errors import Inconsistent, InputError, nearest
from ozonewright.notebook import acts, exchange, reading
from ozonewright.notebook.changes import as_last_time
from ozonewright.notebook.check import faults_of
from ozonewright.notebook.entry import REASONS, Entry, Imported, Reason, StoredResult
from ozonewright.notebook.store import Store, create, open_store
from ozonewright.notebook.tables import returned


class Notebook:
    """A notebook file, open; a context manager that closes it.

    One connection: open one per request or thread. Every act is one transaction. Acts raise
    `Busy` when another program holds the file for more than five seconds, `Unwritable` when the
    disk is full or the file may not be written, `Damaged` when its pages are broken.
    """

    def __init__(self, store: Store) -> None:
        self._store = store

    @classmethod
    def create(cls, path: str | Path, label: str) -> Self:
        """Make a new notebook file; an existing file is refused."""

        def fill(connection: sqlite3.Connection) -> None:
            connection.execute(
                "INSERT INTO notebook VALUES (1, ?, ?, ?)",
                (acts.new_id(), label, acts.moment(None)),
            )

        return cls(create(Path(path), fill))

    @classmethod
    def open(cls, path: str | Path, read_only: bool = False) -> Self:
        """Open a notebook; raise NotFound, Damaged (also: no notebook) or SchemaTooNew."""
        return cls(open_store(Path(path), read_only))

    def close(self) -> None:
        """Close the file."""
        self._store.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    @property
    def path(self) -> Path:
        """The file."""
        return self._store.path

    @property
    def id(self) -> str:
        """The notebook's own id; a backup has the same."""
        return str(self._store.rows("SELECT id FROM notebook")[0][0])

    @property
    def label(self) -> str:
        """The name the notebook was given."""
        return str(self._store.rows("SELECT label FROM notebook")[0][0])

    @property
    def writable(self) -> bool:
        """Whether entries can be added through this connection."""
        return self._store.writable

    @property
    def last_entry(self) -> Entry | None:
        """The entry written or changed last, or None."""
        return reading.last_written(self._store)

    @contextmanager
    def atomic(self) -> Iterator[None]:
        """Make several acts one: all of them are kept or none, and one undo takes all back."""
        with self._store.atomic():
            yield

    def add(
        self,
        kind: str,
        data: Mapping[str, Any],
        *,
        when: datetime | None = None,
        source: str = "typed",
        id: str | None = None,
    ) -> Entry:
        """Add an entry; `data` is the whole document: ``{"run": {...}, "gas": {...}}``.

        What may be sent twice brings the `id` of its entry with it: the second time the entry that
        is there is returned as it stands, and nothing is written.
        """
        check(kind, data)
        store = self._store
        with store.atomic():
            if id is not None and (known := acts.sent_before(store, id, kind, data)):
                return reading.entry_of(store, known)
            place = store.rows("SELECT coalesce(max(number), 0) + 1 FROM entry")[0][0]
            first = acts.draft(
                kind,
                data,
                id=id or acts.new_id(),
                when=when,
                source=source,
                label=f"{kind} {place}",
            )
            number = acts.append(store, acts.pinned(store, first))
            return reading.numbered(store, number)

    def revise(
        self,
        id: str,
        data: Mapping[str, Any],
        *,
        reason: Reason,
        when: datetime | None = None,
        on: int | None = None,
    ) -> Entry:
        """Correct an entry; `on` is the revision the person saw, refused when no longer current."""
        if reason not in REASONS:
            raise InputError(
                "a correction needs one of the four reasons",
                where="reason",
                got=reason,
                fix=nearest(reason, REASONS),
            )
        with self._store.atomic():
            before, row = self._standing(id)
            check(before.kind, data)
            if on is not None and on != row["revision"]:
                raise Inconsistent(
                    f"{before.label} was changed meanwhile",
                    where="revision",
                    got=f"you saw {on}, now it stands at {row['revision']}",
                    fix="Look at what it says now, then correct that.",
                )
            acts.refuse_same(before.data, data)
            after = acts.draft(
                before.kind,
                data,
                id=before.id,
                when=when,
                source="typed",
                label=_own_label(before),
            )
            after = replace(after, parent=row["digest"], deed="revise", reason=reason)
            number = acts.append(self._store, acts.pinned(self._store, after, before))
            return reading.numbered(self._store, number)

    def copy(self, id: str, changes: Mapping[str, Any]) -> dict[str, Any]:
        """Return "as last time, but": the table without its readings, with `changes` put in.

        `changes` is a table, or dotted places: ``{"run.on_time": "4 min"}``. Nothing is stored.
        """
        entry = self.get(id)
        return as_last_time(entry.data, kind_of(entry.kind).readings, changes)

    def withdraw(self, id: str, *, reason: str) -> Entry:
        """Strike an entry out; it is kept."""
        if not reason.strip():
            raise InputError(
                "why is it withdrawn?", where="reason", fix="Give the reason in a few words."
            )
        with self._store.atomic():
            before, row = self._standing(id)
            after = replace(
                before,
                parent=row["digest"],
                deed="withdraw",
                undoes=None,
                at=acts.moment(None),
                reason=reason,
                withdrawn=True,
            )
            return reading.numbered(self._store, acts.append(self._store, after))

    def undo(self) -> Entry | None:
        """Undo the last act not undone yet, by a further revision; None when there is none."""
        with self._store.atomic():
            undone = [self._undone(row) for row in reading.last_act(self._store)]
        return undone[-1] if undone else None

    def _undone(self, row: sqlite3.Row) -> Entry:
        """Append what stood before a revision; undoing an addition withdraws it."""
        head = reading.head(self._store, row["id"])
        if reading.overtaken(self._store, row):
            raise Inconsistent(
                "an imported revision stands on the last act",
                where=row["label"],
                fix="Revise or withdraw the entry instead.",
            )
        earlier = reading.by_digest(self._store, row["parent"]) if row["parent"] else row
        after = replace(
            acts.carried(earlier, returned(earlier["body"])),
            parent=head["digest"],
            deed="undo",
            undoes=row["digest"],
            at=acts.moment(None),
            reason="undo",
            withdrawn=bool(earlier["withdrawn"]) if row["parent"] else True,
        )
        return reading.numbered(self._store, acts.append(self._store, after))

    def _standing(self, id: str) -> tuple[acts.Draft, sqlite3.Row]:
        row = reading.found(self._store, id)
        if row["withdrawn"]:
            raise InputError(
                "this entry is withdrawn",
                where=row["label"],
                fix="Copy it into a new one, or undo the withdrawal if it was the last act.",
            )
        return acts.carried(row, returned(row["body"])), row

    def get(self, id_or_label: str) -> Entry:
        """Return the current revision; NotFound names the nearest labels."""
        return reading.entry_of(self._store, reading.found(self._store, id_or_label))

    def history(self, id: str) -> list[Entry]:
        """Return every revision, the first one first."""
        return reading.history(self._store, reading.found(self._store, id)["id"])

    def at(self, id: str, revision: int) -> Entry:
        """Return one revision of an entry."""
        return reading.numbered(self._store, reading.number_of(self._store, id, revision))

    def counts(self) -> tuple[int, int]:
        """Return how many entries and how many revisions the notebook holds."""
        return reading.counts(self._store)

    def entries(
        self,
        kind: str | None = None,
        setting: str | None = None,
        last: int | None = None,
        withdrawn: bool = False,
    ) -> list[Entry]:
        """Return current revisions in the order of entry; `withdrawn` brings those too.

        `setting` is that of a run; of a bench event it is the run or reaction that it is `of`.
        """
        return reading.entries(self._store, kind, setting, last, withdrawn)

    def labelled(self, label: str) -> list[Entry]:
        """Return the current entries of this very label, none where there is none."""
        return reading.labelled(self._store, label)

    def search(self, text: str) -> list[Entry]:
        """Return current entries that hold every word of `text`, the latest first."""
        return reading.search(self._store, text)

    def settings(self) -> list[str]:
        """Return the settings of the runs, the last used first."""
        return reading.settings(self._store)

    def store_result(
        self, entry_id: str, revision: int, kind: str, version: str, values: Mapping[str, Any]
    ) -> None:
        """Keep what a question answered for a revision; storing it twice keeps one."""
        with self._store.atomic():
            number = reading.number_of(self._store, entry_id, revision)
            self._store.write(
                "INSERT OR IGNORE INTO result (revision, kind, version, at, body) "
                "VALUES (?, ?, ?, ?, ?)",
                number,
                kind,
                version,
                acts.moment(None),
                json.dumps(values, sort_keys=True, ensure_ascii=False),
            )

    def stored_results(self) -> list[StoredResult]:
        """Return every stored result, the oldest first."""
        return reading.stored_results(self._store)

    def backup(self, path: str | Path) -> None:
        """Write a complete second notebook file; an existing file is refused."""
        exchange.backup(self._store, Path(path))

    def export(self, directory: str | Path) -> int:
        """Write every revision as TOML into a new or empty folder; return how many entries."""
        return exchange.export(self._store, Path(directory))

    def import_(self, path: str | Path) -> Imported:
        """Bring in an export's folder or another notebook file, without duplicates."""
        return exchange.import_into(self._store, Path(path))

    def integrity(self) -> list[str]:
        """Return what is wrong with the file; empty when nothing is."""
        return faults_of(self._store)


def _own_label(before: acts.Draft) -> str:
    """Return the label that an entry keeps when its document has none."""
    typed = before.field("label")
    return before.label if typed is None else f"{before.kind} {before.id}"
