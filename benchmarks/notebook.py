"""A notebook of 5,000 and of 50,000 runs, against bare SQLite with the same pragmas.

Bare SQLite keeps the same text in one table with an index on the label, one commit for each entry,
and reads it back with the same JSON reader. Checking the document typed is left out of `add` on our
side, for the bare table checks nothing. Both files lie in one folder; the calls take turns.
"""

from __future__ import annotations

import json
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from figure import Figure

from ozonewright.bench.notebook import figures
from ozonewright.bench.output import outputs
from ozonewright.documents.kinds import check
from ozonewright.notebook import Notebook
from ozonewright.notebook.tables import stored

SIZES = (5_000, 50_000)
CALLS = 200
SETTINGS = 20


def document(number: int) -> dict[str, Any]:
    """Return an invented run of usual length."""
    return {
        "run": {
            "label": f"C{number}",
            "setting": f"setting {number % SETTINGS}",
            "started": datetime(2026, 5, 9, 10, 20),
            "on_time": "240 s ± 1.5 s",
            "start": "diverted",
            "remark": "end point a little slow",
        },
        "gas": {"feed": "oxygen", "flow": "0.80 L/min ± 4 %", "temperature": "22 °C"},
        "absorber": {"bottles": [{"volume": "200 mL", "potassium_iodide": "4.0 g"}] * 2},
        "titration": {
            "burette": "50 mL class A",
            "titres": [f"{20 + number % 900 / 100:.2f} mL", "1.02 mL"],
            "blank": "0.18 mL",
            "titrant": {"concentration": "0.0510 mol/L ± 0.0002"},
        },
    }


class Bare:
    """The same text in one table."""

    def __init__(self, path: Path) -> None:
        self.connection = sqlite3.connect(path, isolation_level=None)
        self.connection.execute("PRAGMA journal_mode = DELETE")
        self.connection.execute("PRAGMA synchronous = EXTRA")
        self.connection.execute(
            "CREATE TABLE run (number INTEGER PRIMARY KEY, label TEXT, at TEXT, body TEXT) STRICT"
        )
        self.connection.execute("CREATE INDEX run_label ON run (label)")

    def fill(self, size: int) -> None:
        self.connection.execute("BEGIN")
        for number in range(size):
            self._insert(number)
        self.connection.execute("COMMIT")

    def _insert(self, number: int) -> None:
        self.connection.execute(
            "INSERT INTO run (label, at, body) VALUES (?, ?, ?)",
            (f"C{number}", "2026-05-09T10:20:00.000000+02:00", stored(document(number))),
        )

    def add(self, number: int) -> None:
        self.connection.execute("BEGIN IMMEDIATE")
        self._insert(number)
        self.connection.execute("COMMIT")

    def show(self, number: int) -> None:
        found = self.connection.execute("SELECT * FROM run WHERE label = ?", (f"C{number}",))
        json.loads(found.fetchall()[0][3])

    def last(self, _: int) -> None:
        found = self.connection.execute("SELECT * FROM run ORDER BY number DESC LIMIT 50")
        for row in found.fetchall():
            json.loads(row[3])


def _times(calls: dict[str, Callable[[int], object]], numbers: range) -> dict[str, float]:
    """Return the median time of each call, taking turns. [s]"""
    taken: dict[str, list[float]] = {name: [] for name in calls}
    for number in numbers:
        for name, call in calls.items():
            begun = perf_counter()
            call(number)
            taken[name].append(perf_counter() - begun)
    return {name: median(times) for name, times in taken.items()}


def _filled(folder: Path, size: int) -> tuple[Notebook, Bare]:
    values = figures(outputs([document(1)])[0])
    book = Notebook.create(folder / f"{size}.sqlite", "benchmark")
    with book.atomic():
        for number in range(size):
            entry = book.add("run", document(number))
            book.store_result(entry.id, 1, "output", "0", values)
    bare = Bare(folder / f"{size}.bare")
    bare.fill(size)
    return book, bare


def _at(folder: Path, size: int) -> Iterator[Figure]:
    book, bare = _filled(folder, size)
    grown = (folder / f"{size}.sqlite").stat().st_size / size
    beyond = range(size, size + CALLS)
    pairs: dict[str, tuple[Callable[[int], object], Callable[[int], object], range]] = {
        "add": (lambda n: book.add("run", document(n)), bare.add, beyond),
        "show": (lambda n: book.get(f"C{n}"), bare.show, range(0, size, size // CALLS)),
        "last 50": (lambda _: book.entries(last=50), bare.last, range(CALLS)),
    }
    for name, (ours, theirs, numbers) in pairs.items():
        calls = {"ours": ours, "bare": theirs}
        if name == "add":
            calls["checking"] = lambda n: check("run", document(n))
        times = _times(calls, numbers)
        our_time = times["ours"] - times.get("checking", 0.0)
        yield Figure(
            f"{size} runs: {name}, over bare SQLite", our_time / times["bare"], at_most=3.0
        )
        yield Figure(f"{size} runs: {name}", our_time * 1e3, "ms")
    yield Figure(f"{size} runs: file for each run, its answer included", grown / 1024, "KiB")
    book.close()
    bare.connection.close()


def main() -> Iterator[Figure]:
    """Measure."""
    with tempfile.TemporaryDirectory() as folder:
        found = {size: list(_at(Path(folder), size)) for size in SIZES}
    for figures_of_size in found.values():
        yield from figures_of_size
    small, large = (
        {figure.what.split(": ")[1]: figure.value for figure in found[size]} for size in SIZES
    )
    for name in ("add", "show", "last 50"):
        yield Figure(f"growth of {name}, 50,000 over 5,000 runs", large[name] / small[name])
