"""Out and in again: a second file, a folder of readable text, another notebook."""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, suppress
from pathlib import Path
from secrets import token_hex

from ozonewright.errors import InputError, Unwritable
from ozonewright.notebook.acts import append, carried
from ozonewright.notebook.entry import Imported
from ozonewright.notebook.folder import Carried, read_folder, write_folder
from ozonewright.notebook.reading import REVISION
from ozonewright.notebook.schema import migrate
from ozonewright.notebook.store import Store, open_store, told
from ozonewright.notebook.tables import returned

RESULTS = (
    "SELECT r.digest, s.* FROM result s JOIN revision r ON r.number = s.revision ORDER BY s.number"
)

DOCUMENTS = (".toml", ".csv", ".tsv", ".txt")
"""Endings of files that are added, not imported."""


def backup(store: Store, path: Path) -> None:
    """Write a complete second file, sound and on the disk before it has its name."""
    _refuse_existing(path)
    raw = path.with_name(f".{path.name}.{token_hex(4)}")
    try:
        with told(path), closing(sqlite3.connect(raw, isolation_level=None)) as target:
            with told(store.path):
                store.connection.backup(target)
            target.execute("PRAGMA synchronous = EXTRA")
        _to_disk(raw)
        _refuse_existing(path)
        raw.rename(path)
        _to_disk(path.absolute().parent)
    except OSError as error:
        raise Unwritable(
            "the backup can't be written",
            where=str(path),
            got=error.strerror or "",
            fix="Choose a folder that you may write to and that has room. No backup was made.",
        ) from error
    finally:
        with suppress(OSError):
            raw.unlink(missing_ok=True)


def _to_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _refuse_existing(path: Path) -> None:
    if path.exists():
        raise InputError(
            "this file is there already",
            where=str(path),
            fix="Give the backup a name of its own, such as one with the date.",
        )


def export(store: Store, directory: Path) -> int:
    """Write every revision into a folder; return how many entries."""
    with store.still():
        book = store.rows("SELECT * FROM notebook")[0]
        revisions = list(_carried(store))
    write_folder(directory, dict(book), revisions)
    return len({one.draft.id for one in revisions})


def _carried(store: Store) -> Iterator[Carried]:
    results: dict[str, list[dict[str, str]]] = {}
    for row in store.rows(RESULTS):
        kept = {key: row[key] for key in ("kind", "version", "at")}
        results.setdefault(row["digest"], []).append({**kept, "values": row["body"]})
    for row in store.rows(REVISION + "ORDER BY r.number"):
        yield Carried(
            draft=carried(row, returned(row["body"])),
            digest=row["digest"],
            revision=row["revision"],
            entry=row["entry"],
            aside=bool(row["aside"]),
            results=tuple(results.get(row["digest"], ())),
        )


def import_into(store: Store, path: Path) -> Imported:
    """Bring in an exported folder or another notebook file; all of it or nothing."""
    if path.suffix.lower() in DOCUMENTS:
        raise InputError(
            "this is a document, not a notebook",
            where=str(path),
            fix="Add it: ozonewright add FILE. Import takes an export's folder or a notebook.",
        )
    revisions = read_folder(path) if path.is_dir() else _read_file(path)
    with store.atomic():
        return _merged(store, revisions)


def _read_file(path: Path) -> list[Carried]:
    """Read another notebook, as it would be after the migrations of this program."""
    other = open_store(path, read_only=True)
    try:
        with told(path), closing(sqlite3.connect(":memory:", isolation_level=None)) as copy:
            copy.row_factory = sqlite3.Row
            other.connection.backup(copy)
            migrate(copy)
            return list(_carried(Store(path, copy, read_only=True)))
    finally:
        other.close()


def _merged(store: Store, revisions: Sequence[Carried]) -> Imported:
    known = {row[0] for row in store.rows("SELECT digest FROM revision")}
    before = {row[0] for row in store.rows("SELECT id FROM entry")}
    entries, added, conflicts = set[str](), 0, dict[str, str]()
    for one in revisions:
        if one.digest in known:
            _keep_results(store, one)
            continue
        head = _head(store, one.draft.id)
        against = one.draft.parent != head
        if against and not one.aside:
            conflicts[one.draft.id] = one.draft.label
        append(store, one.draft, aside=one.aside or against, imported=True)
        _keep_results(store, one)
        known.add(one.digest)
        entries.add(one.draft.id)
        added += 1
    return Imported(
        entries=len(entries - before),
        revisions=added,
        known=len(revisions) - added,
        conflicts=tuple(conflicts.values()),
    )


def _head(store: Store, id: str) -> str | None:
    rows = store.rows("SELECT digest FROM head WHERE id = ?", id)
    return rows[0]["digest"] if rows else None


def _keep_results(store: Store, one: Carried) -> None:
    for result in one.results:
        store.write(
            "INSERT OR IGNORE INTO result (revision, kind, version, at, body) "
            "SELECT number, ?, ?, ?, ? FROM revision WHERE digest = ?",
            result["kind"],
            result["version"],
            result["at"],
            json.dumps(json.loads(result["values"]), sort_keys=True, ensure_ascii=False),
            one.digest,
        )
