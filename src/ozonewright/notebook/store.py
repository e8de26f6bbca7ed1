"""The file: opening it, one transaction per act, and what went wrong in words."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from urllib.parse import quote

from ozonewright.errors import AppError, Busy, Damaged, NotFound, Unwritable
from ozonewright.notebook.rescue import last_good
from ozonewright.notebook.schema import APPLICATION, migrate, refuse_newer

PATIENCE = 5.0
"""Seconds to wait for another program that is writing."""
MAGIC = b"SQLite format 3\x00"


class Store:
    """One connection to a notebook file."""

    def __init__(self, path: Path, connection: sqlite3.Connection, read_only: bool) -> None:
        self.path, self.connection, self.read_only = path, connection, read_only
        self.act: int | None = None
        """Number of the first revision of the act under way."""
        self._depth = 0

    @property
    def writable(self) -> bool:
        """Whether the file can be written through this connection."""
        return not self.read_only and os.access(self.path, os.W_OK)

    def rows(self, statement: str, *values: object) -> list[sqlite3.Row]:
        """Return all rows; nothing is left open that would keep a writer waiting."""
        with told(self.path):
            return self.connection.execute(statement, values).fetchall()

    def write(self, statement: str, *values: object) -> int:
        """Execute a statement within an act; return the number of the row written."""
        with told(self.path):
            return int(self.connection.execute(statement, values).lastrowid or 0)

    @contextmanager
    def atomic(self) -> Iterator[None]:
        """Make everything inside one act: all of it is kept, or none."""
        if self.read_only:
            raise _unwritable(self.path, "opened for reading only")
        if self._depth:
            yield
            return
        with told(self.path):
            self.connection.execute("BEGIN IMMEDIATE")
        self._depth, self.act = 1, None
        try:
            yield
            with told(self.path):
                self.connection.execute("COMMIT")
        except BaseException:
            # A full disk has rolled back already.
            if self.connection.in_transaction:
                self.connection.execute("ROLLBACK")
            raise
        finally:
            self._depth, self.act = 0, None

    @contextmanager
    def still(self) -> Iterator[None]:
        """Read several times from one state of the file."""
        with told(self.path):
            self.connection.execute("BEGIN")
        try:
            yield
        finally:
            with suppress(sqlite3.Error):
                self.connection.execute("COMMIT")

    def close(self) -> None:
        """Close the file."""
        self.connection.close()


def create(path: Path, fill: Callable[[sqlite3.Connection], None]) -> Store:
    """Make a notebook file; an existing one is never overwritten, an empty one is taken."""
    try:
        with path.open("xb"):
            pass
    except FileExistsError as error:
        if not path.is_file() or path.stat().st_size:
            raise Unwritable(
                "this file is there already",
                where=str(path),
                fix="Choose another name, or open it as it is.",
            ) from error
    except OSError as error:
        raise _unwritable(path, error.strerror or "") from error
    store = Store(path, _connected(path, read_only=False), read_only=False)
    try:
        with told(path):
            migrate(store.connection, fill)
    except BaseException:
        store.close()
        raise
    return store


def open_store(path: Path, read_only: bool) -> Store:
    """Open a notebook file, brought up to this program where it may be written."""
    _look(path)
    if read_only:
        _roll_back(path)
    store = Store(path, _connected(path, read_only), read_only)
    try:
        with told(path):
            _check_owner(store.connection, path)
            refuse_newer(store.connection, str(path))
            if not read_only:
                migrate(store.connection)
    except BaseException:
        store.close()
        raise
    return store


def _look(path: Path) -> None:
    """Refuse what can't be a notebook before SQLite has touched it."""
    try:
        with path.open("rb") as file:
            head = file.read(len(MAGIC))
    except FileNotFoundError as error:
        raise NotFound(
            "there is no such notebook",
            where=str(path),
            fix="Check its name and folder, or make one: ozonewright notebook new FILE.",
        ) from error
    except OSError as error:
        raise Unwritable(
            "the notebook can't be read",
            where=str(path),
            got=error.strerror or "",
            fix="Check whose file it is and that it may be read.",
        ) from error
    if head != MAGIC:
        raise _damaged(path, "the file is empty" if not head else "it does not begin as one does")


def _roll_back(path: Path) -> None:
    """Undo what a killed program left half written; a connection for reading alone can't.

    SQLite does so by itself when a connection that may write reads for the first time.
    """
    if not path.with_name(f"{path.name}-journal").exists() or not os.access(path, os.W_OK):
        return
    with told(path):
        connection = _connected(path, read_only=False)
        try:
            connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
        finally:
            connection.close()


def _check_owner(connection: sqlite3.Connection, path: Path) -> None:
    owner = connection.execute("PRAGMA application_id").fetchone()[0]
    if owner != APPLICATION:
        raise _damaged(path, "another program's data")
    if not connection.execute(
        "SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'revision'"
    ).fetchone():
        raise _damaged(path, "its tables are missing")


def _connected(path: Path, read_only: bool) -> sqlite3.Connection:
    with told(path):
        connection = sqlite3.connect(
            f"file:{quote(str(path.absolute()))}?mode={'ro' if read_only else 'rw'}",
            timeout=PATIENCE,
            isolation_level=None,
            uri=True,
            # A page may be begun in one thread and ended in another, never in both at once.
            check_same_thread=False,
        )
        connection.row_factory = sqlite3.Row
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA recursive_triggers = ON")
        connection.execute("PRAGMA trusted_schema = OFF")
        # EXTRA is FULL, and the removal of the journal is on the disk too before an entry is told
        # as kept: with FULL alone a power cut just after could bring the journal back.
        connection.execute("PRAGMA synchronous = EXTRA")
        if not read_only:
            connection.execute("PRAGMA journal_mode = DELETE")
    return connection


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Turn what SQLite reports into what a person can do about it."""
    try:
        yield
    except sqlite3.Error as error:
        if known := _known(error, path):
            raise known from error
        raise
    except UnicodeDecodeError as error:
        raise _damaged(path, "text that is no text") from error


WRITING = (
    sqlite3.SQLITE_IOERR_WRITE,
    sqlite3.SQLITE_IOERR_FSYNC,
    sqlite3.SQLITE_IOERR_DIR_FSYNC,
    sqlite3.SQLITE_IOERR_TRUNCATE,
    sqlite3.SQLITE_IOERR_DELETE,
)


def _known(error: sqlite3.Error, path: Path) -> AppError | None:
    code = getattr(error, "sqlite_errorcode", 0)
    primary = code & 0xFF
    if primary in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return Busy(
            "another program is writing in this notebook",
            where=str(path),
            got=f"waited {PATIENCE:g} s",
            fix="Nothing of this act was stored. Try again when the other has finished.",
        )
    if primary == sqlite3.SQLITE_FULL or code in WRITING:
        return _unwritable(path, "the disk is full or refuses the file")
    if primary in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM):
        return _unwritable(path, str(error))
    if primary in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_IOERR):
        return _damaged(path, str(error))
    if "malformed" in str(error) or "no such table" in str(error):
        return _damaged(path, str(error))
    return None


def _unwritable(path: Path, why: str) -> Unwritable:
    return Unwritable(
        "the notebook can't be written",
        where=str(path),
        got=why,
        fix="What was confirmed before is safe; nothing of this act was stored. Make room on the "
        "disk, or give yourself the right to write the file and its folder; then do it again.",
    )


def _damaged(path: Path, why: str) -> Damaged:
    return Damaged(
        "this file is no notebook, or it is damaged",
        where=str(path),
        got=why,
        fix=f"Nothing was changed. {last_good(path)}",
    )
