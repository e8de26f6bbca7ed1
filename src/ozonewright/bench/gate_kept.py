"""The verdict of the gate that the notebook keeps, as long as it stands."""

from __future__ import annotations

from ozonewright.bench.log import last_of, logged
from ozonewright.notebook import Entry, Notebook

CHANGES = ("rig", "room", "reaction")


def standing(notebook: Notebook, of: str) -> Entry | None:
    """Return the gate kept last, unless what it was asked about has changed since."""
    kept = last_of(logged(notebook, of), "gate")
    if kept is None:
        return None
    later = (
        entry for kind in CHANGES for entry in notebook.entries(kind=kind) if entry.when > kept.when
    )
    return None if any(later) else kept


def kept_last(notebook: Notebook) -> Entry | None:
    """Return the gate kept last of all, unless what it was asked about has changed since."""
    entries = notebook.entries(kind="entry", last=LOOKED_BACK)
    kept = last_of(entries, "gate")
    return None if kept is None else standing(notebook, str(kept.data["entry"].get("of") or ""))


LOOKED_BACK = 200
"""Entries among which the last gate is looked for."""
