"""What happens to the file: kills, two writers, newer schema, full disk, no permission."""

from __future__ import annotations

import os
import resource
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from notebook.kills import killed_rounds, lost
from ozonewright.errors import Busy, Damaged, InputError, SchemaTooNew, Unwritable
from ozonewright.notebook import Notebook

RUN = {"run": {"label": "R", "rate": "0.5 g/h"}}


@pytest.fixture
def path(tmp_path: Path) -> Path:
    file = tmp_path / "book.sqlite"
    Notebook.create(file, "garden").close()
    return file


@pytest.mark.slow
@pytest.mark.parametrize("writers", [1, 2])
def test_kills_lose_nothing_that_was_confirmed(path: Path, writers: int) -> None:
    """30 rounds here; the benchmark kills 500 times and more."""
    kills, confirmed = killed_rounds(path, rounds=30 // writers, writers=writers, seed=writers)
    assert kills == 30
    assert len(confirmed) >= 30
    assert lost(path, confirmed) == (set(), [])


HALF_WRITTEN = """
import os, signal, sqlite3, sys
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
connection.execute("PRAGMA cache_size = 1")
connection.execute("BEGIN IMMEDIATE")
for number in range(2000):
    connection.execute("INSERT INTO entry (id, kind) VALUES (?, 'run')", (f"x{number:0200}",))
os.kill(os.getpid(), signal.SIGKILL)
"""


def test_what_was_half_written_at_a_kill_stops_no_reader(path: Path) -> None:
    """The first to look may be one that only reads, such as the server as it starts."""
    with Notebook.open(path) as book:
        book.add("run", {"run": {"label": "C1", "rate": "0.5 g/h"}})
    subprocess.run([sys.executable, "-c", HALF_WRITTEN, str(path)], check=False)
    journal = path.with_name(f"{path.name}-journal")
    assert journal.stat().st_size > 0
    with Notebook.open(path, read_only=True) as book:
        assert [entry.label for entry in book.entries()] == ["C1"]
        assert book.integrity() == []
    assert not journal.exists()


def test_two_processes_at_once(path: Path) -> None:
    with Notebook.open(path) as one, Notebook.open(path) as other:
        one.add("run", RUN)
        other.add("run", {"run": {"label": "S", "rate": "0.5 g/h"}})
        assert [entry.label for entry in one.entries()] == ["R", "S"]


def test_a_notebook_held_by_another_program_is_busy(path: Path) -> None:
    holder = sqlite3.connect(path, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    try:
        with pytest.raises(Busy), Notebook.open(path) as book:
            book.add("run", RUN)
    finally:
        holder.execute("ROLLBACK")
        holder.close()
    with Notebook.open(path) as book:
        assert book.entries() == []


def test_a_newer_notebook_is_refused_and_untouched(path: Path) -> None:
    with sqlite3.connect(path) as connection:
        connection.execute("PRAGMA user_version = 99")
    connection.close()
    before = path.read_bytes()
    with pytest.raises(SchemaTooNew):
        Notebook.open(path)
    assert path.read_bytes() == before


def test_a_damaged_file_is_told_with_the_way_back(path: Path) -> None:
    with Notebook.open(path) as book:
        for number in range(60):
            book.add("run", {"run": {"label": f"R{number}", "rate": "0.5 g/h"}})
    data = bytearray(path.read_bytes())
    middle = len(data) // 2
    data[middle : middle + 12000] = os.urandom(12000)
    path.write_bytes(data)
    assert told(path)


def told(path: Path) -> list[str]:
    """Return what is said of a damaged file: on opening it, or when it is looked through."""
    try:
        with Notebook.open(path) as book:
            return book.integrity()
    except Damaged as error:
        return [error.fix]


def test_rows_cannot_be_changed_or_removed(path: Path) -> None:
    with Notebook.open(path) as book:
        book.add("run", RUN)
    connection = sqlite3.connect(path)
    for act in ("UPDATE revision SET body = '{}'", "DELETE FROM revision", "DELETE FROM entry"):
        with pytest.raises(sqlite3.Error, match="append-only"):
            connection.execute(act)
    connection.close()


def test_tampering_is_seen(path: Path) -> None:
    with Notebook.open(path) as book:
        book.add("run", RUN)
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("DROP TRIGGER revision_no_update")
    connection.execute("UPDATE revision SET body = replace(body, '0.5', '0.9')")
    connection.close()
    with Notebook.open(path) as book:
        found = " ".join(book.integrity())
    assert "is not what was written" in found
    assert "revision_no_update" in found


def test_reading_only_refuses_to_write(path: Path) -> None:
    with Notebook.open(path, read_only=True) as book:
        assert not book.writable
        with pytest.raises(Unwritable):
            book.add("run", RUN)


FULL_DISK = """
import resource, signal, sys
from ozonewright.errors import Unwritable
from ozonewright.notebook import Notebook
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
path, limit = sys.argv[1], int(sys.argv[2])
resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
kept = 0
with Notebook.open(path) as book:
    try:
        while True:
            book.add("run", {"run": {"label": f"R{kept}", "rate": "0.5 g/h", "remark": "x" * 4000}})
            kept += 1
    except Unwritable as error:
        print(kept, error.fix)
"""


def test_a_full_disk_is_told_and_loses_nothing(path: Path) -> None:
    assert resource.RLIMIT_FSIZE
    assert signal.SIGXFSZ
    limit = str(path.stat().st_size + 60_000)
    done = subprocess.run(
        [sys.executable, "-c", FULL_DISK, str(path), limit],
        capture_output=True,
        text=True,
        check=True,
    )
    kept = int(done.stdout.split()[0])
    assert kept > 0
    with Notebook.open(path) as book:
        assert len(book.entries()) == kept
        assert book.integrity() == []


def test_backup_is_a_whole_notebook(path: Path, tmp_path: Path) -> None:
    with Notebook.open(path) as book:
        book.add("run", RUN)
        book.backup(tmp_path / "copy.sqlite")
        with pytest.raises(InputError):
            book.backup(tmp_path / "copy.sqlite")
        with Notebook.open(tmp_path / "copy.sqlite") as copy:
            assert copy.id == book.id
            assert copy.get("R").data == RUN
