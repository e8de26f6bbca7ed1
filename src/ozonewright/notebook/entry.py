"""What the notebook gives back: one entry at one revision."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Literal

Reason = Literal["typing slip", "misread", "recalculated", "other"]
REASONS: tuple[Reason, ...] = ("typing slip", "misread", "recalculated", "other")
"""Why an entry was corrected; chosen by one tap."""

Deed = Literal["add", "revise", "withdraw", "undo"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the notebook, as it stood at one revision.

    Parameters
    ----------
    id : str
        Stable: the same in every notebook that the entry is exported to.
    kind : str
        ``run``, ``rig``, ``reaction``, ``room`` or ``entry``.
    label : str
        As typed; ``run 3`` and the like where none was typed.
    revision : int
        From 1; every act on the entry adds one.
    when : datetime
        When this revision was written down, with its offset.
    by : str or None
        Who wrote it, as typed.
    data : dict
        The table as typed (TOML types), text untouched.
    reason : str or None
        Why this revision was made; None for the first.
    withdrawn : bool
        Struck out, and kept.
    deed : str
        The act that made this revision: add, revise, withdraw or undo.
    source : str
        How it came in: ``typed``, ``file C4.toml``, ``page`` ...
    aside : bool
        A revision of another notebook that contradicts one of this: kept, and not the current one.
    offsets : mapping
        Place of every date-time typed without zone (``run.started``): offset of the local clock.
    pins : mapping
        ``rig`` and ``room``: (id, revision) of the entry named, as it stood at that time.
    digest : str
        Fingerprint of all the above and of the revision before.
    """

    id: str
    kind: str
    label: str
    revision: int
    when: datetime
    by: str | None
    data: dict[str, Any]
    reason: str | None
    withdrawn: bool
    deed: Deed = "add"
    source: str = "typed"
    aside: bool = False
    offsets: Mapping[str, str] = field(default_factory=dict)
    pins: Mapping[str, tuple[str, int]] = field(default_factory=dict)
    digest: str = ""


@dataclass(frozen=True, slots=True)
class StoredResult:
    """A result as a program version worked it out from one revision."""

    entry_id: str
    revision: int
    kind: str
    version: str
    values: dict[str, Any]
    when: datetime
    label: str
    digest: str
    """Of the revision."""


@dataclass(frozen=True, slots=True)
class Imported:
    """What an import brought."""

    entries: int = 0
    revisions: int = 0
    known: int = 0
    """Revisions that the notebook held already."""
    conflicts: tuple[str, ...] = ()
    """Labels of entries with two contradicting revisions; both are kept, ours stays current."""
