"""Writers killed with SIGKILL at random moments: what was confirmed is there, the file is sound.

The tests do thirty of these; here are 500 with one writer and 500 with two at once.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

from figure import Figure

from ozonewright.bench.notebook import verify
from ozonewright.notebook import Notebook

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "notebook"))
kills = import_module("kills")
"""Shared with the tests."""

KILLS = 500


def main() -> Iterator[Figure]:
    """Kill, and count what is lost."""
    for writers, seed in ((1, 1), (2, 2)):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "book.sqlite"
            Notebook.create(path, "kills").close()
            count, confirmed = kills.killed_rounds(path, KILLS // writers, writers, seed)
            missing, faults = kills.lost(path, confirmed)
            with Notebook.open(path) as book:
                faults += [] if verify(book).sound else ["verify"]
        at_once = f"{writers} at once"
        yield Figure(f"writers killed, {at_once}", count, "", at_least=KILLS)
        yield Figure(f"entries confirmed, {at_once}", len(confirmed), "")
        yield Figure(f"of these lost, {at_once}", len(missing), "", at_most=0)
        yield Figure(f"faults of the file, {at_once}", len(faults), "", at_most=0)
