"""The bench page: its weight, the time from a press to *stored*, kills while two pages press.

Presses go over one kept connection, as the page's script sends them, into a notebook with a
reaction and its plan, a dozen runs and 400 earlier events. Beside each press the disk is made to
write one small file through, for much of the wait is its own.
"""

from __future__ import annotations

import json
import os
import re
import sys
import tomllib
from collections.abc import Iterator
from datetime import datetime, timedelta
from http.client import HTTPConnection
from importlib import import_module
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, sleep
from urllib.parse import quote, urlencode

from figure import Figure
from pages import FORM, fetched, notebook_in, ours, p95, serving

from ozonewright.bench.clock import now
from ozonewright.bench.log import Press, press
from ozonewright.notebook import Notebook
from ozonewright.notebook.acts import new_id

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))
kills = import_module("web.bench_kills")
"""Shared with the tests."""

REACTION = Path(__file__).parents[1] / "docs" / "examples" / "reaction.toml"
OF = "vanillin, second lot"
EARLIER = 400
PRESSES = 200
KILLS = 50
PARTS = ("/static/bench.css", "/static/paper.css", "/static/bench.js", "/static/mark.svg")
ACTS = ("discharge on", "discharge off")


def filled(file: Path) -> None:
    """Add the reaction, and events of other runs and of this one."""
    with Notebook.open(file) as notebook:
        notebook.add("reaction", tomllib.loads(REACTION.read_text(encoding="utf-8")))
        begun = datetime.now().astimezone() - timedelta(minutes=30)
        press(notebook, Press("gas on", OF, at=begun.isoformat()), now(), "page")
        with notebook.atomic():
            for number in range(EARLIER):
                of = OF if number % 10 == 0 else f"D{number // 20}"
                press(notebook, Press(ACTS[number % 2], of), now(), "page")


def written(folder: Path) -> float:
    """Return seconds that the disk takes for one small file, written through."""
    start = perf_counter()
    with (folder / "probe").open("wb") as file:
        file.write(bytes(4096))
        file.flush()
        os.fsync(file.fileno())
    return perf_counter() - start


def pressed(connection: HTTPConnection, token: str, what: str) -> float:
    """Return seconds from a press to its confirmation with the time it was stored, or raise."""
    fields = {"token": token, "id": new_id(), "of": OF, "what": what, "ago": "0.004"}
    start = perf_counter()
    connection.request(
        "POST",
        "/bench/press",
        urlencode(fields),
        {"content-type": FORM, "accept": "application/json"},
    )
    reply = connection.getresponse()
    found = json.loads(reply.read())
    passed = perf_counter() - start
    if reply.status != 200 or not found["stored"]:
        raise RuntimeError(f"not stored: {reply.status}")
    return passed


def main() -> Iterator[Figure]:
    """Weigh, press, kill."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        file = notebook_in(folder)
        filled(file)
        with serving(ours(file), folder) as port:
            connection = HTTPConnection("127.0.0.1", port)
            start = perf_counter()
            page = fetched(connection, f"/bench?of={quote(OF)}")
            first = perf_counter() - start
            weight = len(page) + sum(len(fetched(connection, part)) for part in PARTS)
            token = re.search(r'name="token" value="([^"]+)"', page.decode())
            assert token is not None
            times, disk = [], []
            for number in range(PRESSES):
                times.append(pressed(connection, token[1], ACTS[number % 2]))
                disk.append(written(folder))
                sleep(0.01)
    yield Figure(
        "page with its style, script and mark, not compressed", weight / 1000.0, "kB", 60.0
    )
    yield Figure("from a press to *stored*, p95", 1000.0 * p95(times), "ms", at_most=100.0)
    yield Figure("the same, median", 1000.0 * median(times), "ms")
    yield Figure("one small file written through to this disk, p95", 1000.0 * p95(disk), "ms")
    yield Figure("first look, plan of the reaction included", first, "s")
    for clients in (1, 2):
        with TemporaryDirectory() as name:
            found = kills.pressed_through_kills(Path(name), KILLS, clients, seed=clients)
        pages = "one page" if clients == 1 else "two pages"
        yield Figure(f"server killed, {pages}", KILLS, "", at_least=KILLS)
        yield Figure(f"presses, {pages}", found.pressed, "")
        yield Figure(f"of these lost, {pages}", found.lost, "", at_most=0)
        yield Figure(f"kept twice, {pages}", found.twice, "", at_most=0)
        yield Figure(f"faults of the file, {pages}", len(found.faults), "", at_most=0)
        off = abs(found.on_time - found.truth)
        yield Figure(f"on-time off by, {pages}", off, "s")
        yield Figure(f"of an on-time of, {pages}", found.truth, "s")
