"""Reading the notebook: current revisions, histories, what fits a word."""

from __future__ import annotations

import json
import sqlite3
from datetime import datetime

from ozonewright.errors import Damaged, Inconsistent, NotFound, nearest
from ozonewright.notebook.entry import Entry, StoredResult
from ozonewright.notebook.store import Store
from ozonewright.notebook.tables import returned

REVISION = "SELECT r.*, e.id, e.kind FROM revision r JOIN entry e ON e.number = r.entry "
SHORTEST_ID = 4
"""Letters of an id that are enough to ask by, when they fit one entry."""
LABELS_COMPARED = 500


def entry_of(store: Store, row: sqlite3.Row) -> Entry:
    """Return a stored revision as other floors see it."""
    # By place, in the order of the table: by name each of them is a search of its own.
    (_, _, revision, digest, _, _, deed, _, at, by, label, _, reason, source, withdrawn, aside,
     _, body, offsets, pins, id, kind) = row  # fmt: skip
    return Entry(
        id=id,
        kind=kind,
        label=label,
        revision=revision,
        when=datetime.fromisoformat(at),
        by=by,
        data=returned(body),
        reason=reason,
        withdrawn=bool(withdrawn),
        deed=deed,
        source=source,
        aside=bool(aside),
        offsets=_small(offsets),
        pins={field: _pin(store, digest) for field, digest in _small(pins).items()},
        digest=digest,
    )


def _small(text: str) -> dict[str, str]:
    return {} if text == "{}" else dict(json.loads(text))


def _pin(store: Store, digest: str) -> tuple[str, int]:
    row = by_digest(store, digest)
    return str(row["id"]), int(row["revision"])


def by_digest(store: Store, digest: str) -> sqlite3.Row:
    """Return the revision with this fingerprint, which another revision names."""
    found = store.rows(REVISION + "WHERE r.digest = ?", digest)
    if not found:
        raise Damaged(
            "a revision that another rests on is missing",
            where=str(store.path),
            got=digest,
            fix="Run ozonewright notebook verify, and go back to the latest backup.",
        )
    return found[0]


def numbered(store: Store, number: int) -> Entry:
    """Return the revision just written."""
    return entry_of(store, store.rows(REVISION + "WHERE r.number = ?", number)[0])


def head(store: Store, id: str) -> sqlite3.Row:
    """Return the current revision of an entry."""
    return store.rows("SELECT * FROM head WHERE id = ?", id)[0]


def found(store: Store, name: str) -> sqlite3.Row:
    """Return the current revision of the entry with this id, label, or beginning of an id."""
    rows = store.rows("SELECT * FROM head WHERE id = ?", name)
    if not rows:
        rows = store.rows("SELECT * FROM head WHERE label = ?", name)
        standing = [row for row in rows if not row["withdrawn"]]
        rows = standing or rows
    if not rows and len(name) >= SHORTEST_ID and name.isalnum():
        rows = store.rows("SELECT * FROM head WHERE id GLOB ?", name.lower() + "*")
    if len(rows) > 1:
        raise Inconsistent(
            "more than one entry answers to this",
            got=name,
            fix="Use an id: " + ", ".join(f"{row['id']} ({row['at'][:16]})" for row in rows[:6]),
        )
    if not rows:
        raise _not_found(store, name)
    return rows[0]


def _not_found(store: Store, name: str) -> NotFound:
    last = store.rows("SELECT label FROM revision ORDER BY number DESC LIMIT ?", LABELS_COMPARED)
    labels = {row["label"] for row in last}
    return NotFound(
        "the notebook has no such entry",
        got=name,
        fix=nearest(name, labels)
        if labels
        else "It has no entries yet: ozonewright add FILE.toml.",
    )


def history(store: Store, id: str) -> list[Entry]:
    """Return every revision of an entry."""
    rows = store.rows(REVISION + "WHERE e.id = ? ORDER BY r.revision", id)
    return [entry_of(store, row) for row in rows]


def entries(
    store: Store, kind: str | None, setting: str | None, last: int | None, withdrawn: bool
) -> list[Entry]:
    """Return the current revisions that fit, in the order of entry."""
    wanted, values = ["1"], list[object]()
    if kind is not None:
        wanted.append("kind = ?")
        values.append(kind)
    if setting is not None:
        wanted.append("setting = ?")
        values.append(setting)
    if not withdrawn:
        wanted.append("withdrawn = 0")
    statement = f"SELECT * FROM head WHERE {' AND '.join(wanted)} ORDER BY entry DESC LIMIT ?"
    rows = store.rows(statement, *values, -1 if last is None else max(last, 0))
    return [entry_of(store, row) for row in reversed(rows)]


def labelled(store: Store, label: str) -> list[Entry]:
    """Return the current revisions of this label."""
    rows = store.rows("SELECT * FROM head WHERE label = ? AND withdrawn = 0 ORDER BY entry", label)
    return [entry_of(store, row) for row in rows]


def last_written(store: Store) -> Entry | None:
    """Return the current revision of the entry that was touched last."""
    rows = store.rows(
        "SELECT * FROM head WHERE entry = (SELECT entry FROM revision ORDER BY number DESC LIMIT 1)"
    )
    return entry_of(store, rows[0]) if rows else None


def search(store: Store, text: str) -> list[Entry]:
    """Return the current entries in which every word occurs, in whatever case."""
    words = [json.dumps(word, ensure_ascii=False)[1:-1].casefold() for word in text.split()]
    if not words:
        return []
    store.connection.create_function("folded", 1, str.casefold, deterministic=True)
    wanted = " AND ".join("instr(folded(label || char(10) || body), ?) > 0" for _ in words)
    rows = store.rows(f"SELECT * FROM head WHERE {wanted} ORDER BY number DESC", *words)
    return [entry_of(store, row) for row in rows]


def settings(store: Store) -> list[str]:
    """Return the settings of runs that stand, the last used first."""
    rows = store.rows(
        "SELECT setting FROM head WHERE kind = 'run' AND withdrawn = 0 AND setting IS NOT NULL "
        "GROUP BY setting ORDER BY max(entry) DESC"
    )
    return [row["setting"] for row in rows]


def last_act(store: Store) -> list[sqlite3.Row]:
    """Return the revisions of the last act made here and not undone, the last first."""
    standing = (
        "r.imported = 0 AND r.deed <> 'undo' "
        "AND NOT EXISTS (SELECT 1 FROM revision u WHERE u.undoes = r.digest) "
    )
    last = store.rows(REVISION + f"WHERE {standing} ORDER BY r.number DESC LIMIT 1")
    if not last:
        return []
    return store.rows(
        REVISION + f"WHERE {standing} AND r.act = ? AND r.number >= ? ORDER BY r.number DESC",
        last[0]["act"],
        last[0]["act"],
    )


def overtaken(store: Store, row: sqlite3.Row) -> bool:
    """Whether a revision from elsewhere stands on this one."""
    return bool(
        store.rows(
            "SELECT 1 FROM revision WHERE entry = ? AND number > ? AND imported = 1 AND aside = 0",
            row["entry"],
            row["number"],
        )
    )


def number_of(store: Store, id: str, revision: int) -> int:
    """Return the number of one revision of an entry."""
    rows = store.rows(REVISION + "WHERE e.id = ? AND r.revision = ?", id, revision)
    if not rows:
        raise NotFound(
            "the notebook has no such revision",
            got=f"{id}, revision {revision}",
            fix="See ozonewright notebook history.",
        )
    return int(rows[0]["number"])


def stored_results(store: Store) -> list[StoredResult]:
    """Return every stored result."""
    rows = store.rows(
        "SELECT e.id, r.revision, s.kind, s.version, s.body, s.at, r.label, r.digest "
        "FROM result s JOIN revision r ON r.number = s.revision "
        "JOIN entry e ON e.number = r.entry ORDER BY s.number"
    )
    return [
        StoredResult(
            entry_id=row["id"],
            revision=row["revision"],
            kind=row["kind"],
            version=row["version"],
            values=json.loads(row["body"]),
            when=datetime.fromisoformat(row["at"]),
            label=row["label"],
            digest=row["digest"],
        )
        for row in rows
    ]


def counts(store: Store) -> tuple[int, int]:
    """Return how many entries and revisions there are."""
    row = store.rows("SELECT (SELECT count(*) FROM entry), (SELECT count(*) FROM revision)")[0]
    return int(row[0]), int(row[1])
