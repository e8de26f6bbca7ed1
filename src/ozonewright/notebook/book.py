"""The notebook as the other floors see it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from ozonewright.notebook.entry import Entry, Imported, Reason, StoredResult


class Notebook:
    """A notebook file, open; a context manager that closes it.

    One connection: open one per request or thread. Every act is one transaction. Acts raise
    `Busy` when another program holds the file for more than five seconds, `Unwritable` when the
    disk is full or the file may not be written, `Damaged` when its pages are broken.
    """

    @classmethod
    def create(cls, path: str | Path, label: str) -> Self:
        """Make a new notebook file; an existing file is refused."""
        raise NotImplementedError

    @classmethod
    def open(cls, path: str | Path, read_only: bool = False) -> Self:
        """Open a notebook; raise NotFound, Damaged (also: no notebook) or SchemaTooNew."""
        raise NotImplementedError

    def close(self) -> None:
        """Close the file."""

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
        raise NotImplementedError

    @property
    def id(self) -> str:
        """The notebook's own id; a backup has the same."""
        raise NotImplementedError

    @property
    def label(self) -> str:
        """The name the notebook was given."""
        raise NotImplementedError

    @property
    def writable(self) -> bool:
        """Whether entries can be added through this connection."""
        raise NotImplementedError

    @property
    def last_entry(self) -> Entry | None:
        """The entry written or changed last, or None."""
        raise NotImplementedError

    @contextmanager
    def atomic(self) -> Iterator[None]:
        """Make several acts one: all of them are kept or none, and one undo takes all back."""
        yield

    def add(
        self,
        kind: str,
        data: Mapping[str, Any],
        *,
        when: datetime | None = None,
        source: str = "typed",
    ) -> Entry:
        """Add an entry; `data` is the whole document: ``{"run": {...}, "gas": {...}}``."""
        raise NotImplementedError

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
        raise NotImplementedError

    def copy(self, id: str, changes: Mapping[str, Any]) -> dict[str, Any]:
        """Return "as last time, but": the table without its readings, with `changes` put in.

        `changes` is a table, or dotted places: ``{"run.on_time": "4 min"}``. Nothing is stored.
        """
        raise NotImplementedError

    def withdraw(self, id: str, *, reason: str) -> Entry:
        """Strike an entry out; it is kept."""
        raise NotImplementedError

    def undo(self) -> Entry | None:
        """Undo the last act not undone yet, by a further revision; None when there is none."""
        raise NotImplementedError

    def get(self, id_or_label: str) -> Entry:
        """Return the current revision; NotFound names the nearest labels."""
        raise NotImplementedError

    def history(self, id: str) -> list[Entry]:
        """Return every revision, the first one first."""
        raise NotImplementedError

    def entries(
        self,
        kind: str | None = None,
        setting: str | None = None,
        last: int | None = None,
        withdrawn: bool = False,
    ) -> list[Entry]:
        """Return current revisions in the order of entry; `withdrawn` brings those too."""
        raise NotImplementedError

    def search(self, text: str) -> list[Entry]:
        """Return current entries that hold every word of `text`, the latest first."""
        raise NotImplementedError

    def settings(self) -> list[str]:
        """Return the settings of the runs, the last used first."""
        raise NotImplementedError

    def store_result(
        self, entry_id: str, revision: int, kind: str, version: str, values: Mapping[str, Any]
    ) -> None:
        """Keep what a question answered for a revision; storing it twice keeps one."""
        raise NotImplementedError

    def stored_results(self) -> list[StoredResult]:
        """Return every stored result, the oldest first."""
        raise NotImplementedError

    def backup(self, path: str | Path) -> None:
        """Write a complete second notebook file; an existing file is refused."""
        raise NotImplementedError

    def export(self, directory: str | Path) -> int:
        """Write every revision as TOML into a new or empty folder; return how many entries."""
        raise NotImplementedError

    def import_(self, path: str | Path) -> Imported:
        """Bring in an export's folder or another notebook file, without duplicates."""
        raise NotImplementedError

    def integrity(self) -> list[str]:
        """Return what is wrong with the file; empty when nothing is."""
        raise NotImplementedError
