"""The way back to the last good state of a damaged notebook."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from urllib.parse import quote

from ozonewright.notebook.schema import APPLICATION

LOOKED_AT = 50
SUFFIXES = (".sqlite", ".sqlite3", ".db", ".bak", ".backup")


def last_good(path: Path) -> str:
    """Say how to go on: the newest sound notebook beside a damaged one, or what else to try."""
    found = [
        (at, count, other)
        for other in _beside(path)
        if (read := _read(other))
        for at, count in [read]
    ]
    keep = f"Keep {path.name} (and {path.name}-journal, if there is one) as they are"
    if not found:
        return (
            f"{keep}; go back to your latest backup, or import your latest export into a new "
            "notebook. No sound notebook lies beside it."
        )
    at, count, other = max(found)
    return (
        f"{keep}; the last good state that lies beside it, if it is the same notebook, is "
        f"{other.name}: {count} entries, the last written {at[:16].replace('T', ' ')}."
    )


def _beside(path: Path) -> list[Path]:
    try:
        others = [
            other
            for other in path.absolute().parent.iterdir()
            if other.name != path.name
            and other.suffix.lower() in {*SUFFIXES, path.suffix.lower()}
            and other.is_file()
        ]
        return sorted(others, key=lambda other: other.stat().st_mtime, reverse=True)[:LOOKED_AT]
    except OSError:
        return []


def _read(path: Path) -> tuple[str, int] | None:
    """Return when the last entry was written and how many there are, if the file is sound."""
    try:
        uri = f"file:{quote(str(path))}?mode=ro"
        with closing(sqlite3.connect(uri, uri=True, timeout=0.1)) as connection:
            if connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION:
                return None
            if connection.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
                return None
            last = connection.execute("SELECT max(at) FROM revision").fetchone()[0]
            count = connection.execute("SELECT count(*) FROM entry").fetchone()[0]
            return str(last or ""), int(count)
    except sqlite3.Error:
        return None
