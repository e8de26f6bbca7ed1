"""Acts on the notebook: each appends revisions, none changes one."""

from __future__ import annotations

import json
import secrets
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from ozonewright.documents.kinds import KINDS
from ozonewright.errors import Inconsistent, InputError
from ozonewright.notebook.entry import Deed
from ozonewright.notebook.store import Store
from ozonewright.notebook.tables import digest, offsets, returned, stored, whole_minutes

ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
"""Without i, l, o and u, which the eye takes for others."""
ID_LETTERS = 12


def new_id() -> str:
    """Return an id that no other notebook will give: 60 random bits."""
    return "".join(secrets.choice(ALPHABET) for _ in range(ID_LETTERS))


def sent_before(store: Store, id: str, kind: str, data: Mapping[str, Any]) -> sqlite3.Row | None:
    """Return the current revision of an entry that was sent under this id before, or None.

    Only its times may differ: what is sent again is sent later.
    """
    if len(id) != ID_LETTERS or set(id) - set(ALPHABET):
        raise InputError(
            "this is no id of an entry",
            where="id",
            got=id[:40],
            fix=f"It has {ID_LETTERS} letters of {ALPHABET}.",
        )
    rows = store.rows("SELECT * FROM head WHERE id = ?", id)
    if not rows:
        return None
    first = store.rows(
        "SELECT r.body FROM revision r JOIN entry e ON e.number = r.entry "
        "WHERE e.id = ? ORDER BY r.revision LIMIT 1",
        id,
    )[0]
    if rows[0]["kind"] != kind or _meaning(kind, returned(first["body"])) != _meaning(kind, data):
        raise Inconsistent(
            "another entry has this id",
            where="id",
            got=id,
            fix="Load the page anew and press again.",
        )
    return rows[0]


def _meaning(kind: str, data: Mapping[str, Any]) -> dict[str, Any]:
    return {name: main_text(kind, data, name) for name in ("what", "of", "value")}


@dataclass(frozen=True, slots=True)
class Draft:
    """A revision about to be written; what an export carries of it too."""

    id: str
    kind: str
    parent: str | None
    deed: Deed
    at: str
    label: str
    source: str
    data: Mapping[str, Any]
    reason: str | None = None
    undoes: str | None = None
    withdrawn: bool = False
    offsets: Mapping[str, str] | None = None
    pins: Mapping[str, str] | None = None

    @property
    def digest(self) -> str:
        """The fingerprint, which holds that of the revision before."""
        return digest(
            self.id,
            self.kind,
            self.parent,
            self.deed,
            self.undoes,
            self.at,
            self.label,
            self.reason,
            self.source,
            self.withdrawn,
            stored(self.data, sort=True),
            dict(self.offsets or {}),
            dict(self.pins or {}),
        )

    @property
    def group(self) -> str | None:
        """What the entry belongs to: a run its setting, an event its run."""
        return self.field(KINDS[self.kind].group if self.kind in KINDS else "setting")

    def field(self, name: str) -> str | None:
        """Return a text of the document's own table."""
        return main_text(self.kind, self.data, name)


def main_text(kind: str, data: Mapping[str, Any], name: str) -> str | None:
    """Return a text of the table that a document of this kind has: ``run.setting``."""
    main = data.get(kind)
    value = main.get(name) if isinstance(main, Mapping) else None
    return value if isinstance(value, str) and value.strip() else None


def draft(
    kind: str, data: Mapping[str, Any], *, id: str, when: datetime | None, source: str, label: str
) -> Draft:
    """Return the first revision of an entry; `label` is for a document without one."""
    return Draft(
        id=id,
        kind=kind,
        parent=None,
        deed="add",
        at=moment(when),
        label=main_text(kind, data, "label") or label,
        source=source,
        data=data,
        offsets=dict(offsets(data)),
    )


def moment(when: datetime | None) -> str:
    """Return a time as it is stored; now, when none is given."""
    return whole_minutes(when or datetime.now().astimezone()).isoformat()


def append(store: Store, one: Draft, *, aside: bool = False, imported: bool = False) -> int:
    """Write a revision inside an act; return its number."""
    found = store.rows("SELECT number FROM entry WHERE id = ?", one.id)
    entry = (
        found[0]["number"]
        if found
        else store.write("INSERT INTO entry (id, kind) VALUES (?, ?)", one.id, one.kind)
    )
    revision, number = store.rows(
        "SELECT (SELECT coalesce(max(revision), 0) + 1 FROM revision WHERE entry = ?), "
        "(SELECT coalesce(max(number), 0) + 1 FROM revision)",
        entry,
    )[0]
    if store.act is None:
        store.act = number
    store.write(
        "INSERT INTO revision VALUES (" + ", ".join("?" * 20) + ")",
        number,
        entry,
        revision,
        one.digest,
        one.parent,
        store.act,
        one.deed,
        one.undoes,
        one.at,
        one.field("by"),
        one.label,
        one.group,
        one.reason,
        one.source,
        one.withdrawn,
        aside,
        imported,
        stored(one.data),
        json.dumps(dict(one.offsets or {})),
        json.dumps(dict(one.pins or {})),
    )
    return int(number)


def pinned(store: Store, one: Draft, before: Draft | None = None) -> Draft:
    """Return the draft with the entries it names pinned as they stand now.

    A correction that leaves a name alone keeps the revision that was pinned with it.
    """
    pins: dict[str, str] = {}
    for field in KINDS[one.kind].names if one.kind in KINDS else ():
        name = one.field(field)
        if name is None:
            continue
        if before is not None and before.field(field) == name:
            if pin := (before.pins or {}).get(field):
                pins[field] = pin
            continue
        found = store.rows(
            "SELECT digest, id FROM head WHERE kind = ? AND withdrawn = 0 AND label = ? "
            "UNION SELECT digest, id FROM head WHERE kind = ? AND withdrawn = 0 AND id = ?",
            field,
            name,
            field,
            name,
        )
        if len(found) > 1:
            raise Inconsistent(
                f"more than one {field} has this label",
                where=f"{one.kind}.{field}",
                got=name,
                fix="Write the id of one of them: " + ", ".join(row["id"] for row in found) + ".",
            )
        if found:
            pins[field] = found[0]["digest"]
    return replace(one, pins=pins)


def carried(row: sqlite3.Row, data: Mapping[str, Any]) -> Draft:
    """Return a stored revision as a draft."""
    return Draft(
        id=row["id"],
        kind=row["kind"],
        parent=row["parent"],
        deed=row["deed"],
        at=row["at"],
        label=row["label"],
        source=row["source"],
        data=data,
        reason=row["reason"],
        undoes=row["undoes"],
        withdrawn=bool(row["withdrawn"]),
        offsets=json.loads(row["offsets"]),
        pins=json.loads(row["pins"]),
    )


def refuse_same(before: Mapping[str, Any], after: Mapping[str, Any]) -> None:
    """Refuse a correction that corrects nothing."""
    if stored(before, sort=True) == stored(after, sort=True):
        raise InputError(
            "nothing differs from what is stored", fix="Change a value, or leave it as it is."
        )
