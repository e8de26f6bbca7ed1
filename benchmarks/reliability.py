"""One reliability run: kills in mid-write, damaged documents, hostile forms, twenty clients.

    python benchmarks/reliability.py                    the whole of it, about an hour
    python benchmarks/reliability.py --minutes 1 --documents 2000 --forms 200 --kills 50

Nothing may be lost and nothing may end in a trace. The parts are those that the tests do a little
of: `tests/notebook/kills.py`, `tests/property/trials.py`, `tests/web/fuzz.py`.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import traceback
import warnings
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from time import monotonic, sleep

from figure import Figure
from pages import kept, notebook_in, ours, p95, serving, token_at

from ozonewright.bench.notebook import verify
from ozonewright.notebook import Notebook

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))
sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "notebook"))

import kills  # the tests' folders join the path above

from property import trials
from web import hostile
from web.form_schema import at_the_desk
from web.fuzz import drawn_requests

KILLS = 1000
DOCUMENTS = 100_000
FORMS = 5000
EXAMPLES = 60
"""Requests of each way of drawing from the schema, for each method of each route."""
MINUTES = 10.0
CLIENTS = 20
WORKERS = 2
CHUNK = 250
FIRST_SEED = 10_000_000
"""Other seeds than the tests'."""


def chunk(task: tuple[str, int, int]) -> tuple[str, Counter[str], list[str]]:
    """Put some damaged documents of one kind through; return how they ended, and the traces."""
    kind, first, count = task
    warnings.simplefilter("error")
    ends, traces = Counter[str](), []
    for seed in range(first, first + count):
        try:
            ends[trials.end_of(kind, trials.damaged(kind, seed))] += 1
        except Exception:  # whatever it is, it is what we count
            ends["trace"] += 1
            traces.append(f"{kind} {seed}: {traceback.format_exc(limit=-2)}")
    return kind, ends, traces


def tasks(documents: int) -> list[tuple[str, int, int]]:
    """Return how many of each kind, in pieces."""
    found = []
    for kind, one in trials.KINDS.items():
        count = -(-documents * one.share // 1000)
        found += [
            (kind, FIRST_SEED + done, min(CHUNK, count - done)) for done in range(0, count, CHUNK)
        ]
    return found


def damaged(documents: int) -> Iterator[Figure]:
    """Put damaged documents of every kind through."""
    ends: dict[str, Counter[str]] = {kind: Counter() for kind in trials.KINDS}
    with ProcessPoolExecutor(WORKERS) as pool:
        for kind, counts, traces in pool.map(chunk, tasks(documents)):
            ends[kind] += counts
            for trace in traces:
                print(trace, file=sys.stderr, flush=True)
    for kind, counts in ends.items():
        told = ", ".join(f"{counts[end]} {end}" for end in ("answer", "error"))
        print(f"{kind}: {counts.total()}: {told}", flush=True)
    whole = sum(ends.values(), Counter[str]())
    yield Figure("damaged documents", whole.total(), "", at_least=documents)
    yield Figure("kinds of them", len(ends), "")
    yield Figure("ended in an answer", whole["answer"], "")
    yield Figure("ended in an error that says what to do", whole["error"], "")
    yield Figure("ended in a trace, a warning of a library, or without words",
                 whole.total() - whole["answer"] - whole["error"], "", at_most=0)  # fmt: skip


def killed(wanted: int) -> Iterator[Figure]:
    """Kill writers in mid-write, four notebooks beside each other: two with one writer at a time,
    two with two at once.
    """
    each = -(-wanted // len(WRITERS))
    with ThreadPoolExecutor(len(WRITERS)) as pool:
        found = list(pool.map(lambda seed: _killed(each, WRITERS[seed], seed), WRITERS))
    count, confirmed, missing, faults = (sum(column) for column in zip(*found, strict=True))
    yield Figure("writers killed in mid-write", count, "", at_least=wanted)
    yield Figure("entries they had confirmed", confirmed, "")
    yield Figure("of these lost", missing, "", at_most=0)
    yield Figure("faults of the files", faults, "", at_most=0)


WRITERS = {3: 1, 4: 1, 5: 2, 6: 2}
"""How many at once, by the seed of the notebook."""


def _killed(wanted: int, writers: int, seed: int) -> tuple[int, int, int, int]:
    """Return kills, entries confirmed, of these lost, and faults of the file."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.sqlite"
        Notebook.create(path, "kills").close()
        done, labels = kills.killed_rounds(path, -(-wanted // writers), writers, seed)
        lost, wrong = kills.lost(path, labels)
        with Notebook.open(path) as book:
            return done, len(labels), len(lost), len(wrong) + (not verify(book).sound)


def forms(posts: int, examples: int) -> Iterator[Figure]:
    """Send hostile posts to every route that takes a form, and requests drawn from the schema."""
    wrong = []
    with tempfile.TemporaryDirectory() as name:
        client, file = at_the_desk(Path(name)), Path(name) / "bench.sqlite"
        for post in hostile.posts(client, posts, FIRST_SEED):
            for fault in hostile.wrongs(client, file, post):
                wrong.append(fault)
                print(f"{fault}: {post.content[:300]!r}", file=sys.stderr, flush=True)
    yield Figure("hostile form posts", posts, "")
    yield Figure("of these told badly, or written in spite of a refusal", len(wrong), "", at_most=0)
    drawn = Counter[str]()
    for bare in (False, True):
        with tempfile.TemporaryDirectory() as name:
            # a fault ends the run with the request that found it
            drawn += Counter(drawn_requests(at_the_desk(Path(name), bare=bare), examples, 7))
    yield Figure("requests drawn from the schema", drawn.total(), "")
    yield Figure("methods of routes they went to", len(drawn), "")


def crowd(minutes: float) -> Iterator[Figure]:
    """Let twenty clients read and keep at once, as people do, with pauses of half a second."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        file = notebook_in(folder)
        with (folder / "said").open("w+", encoding="utf-8") as said:
            with serving(ours(file), folder, said) as port:
                found = _crowd(port, monotonic() + 60.0 * minutes)
            said.seek(0)
            told = said.read()
        with Notebook.open(file) as book:
            there = Counter(entry.label for entry in book.entries())
            sound = verify(book).sound
    confirmed = [label for one in found for label in one.confirmed]
    failed = [fault for one in found for fault in one.failed]
    for fault in failed[:20]:
        print(fault, file=sys.stderr, flush=True)
    waits = [wait for one in found for wait in one.waits]
    yield Figure(f"minutes of {CLIENTS} clients", minutes, "min")
    yield Figure("pages read", len(waits) - len(confirmed), "")
    yield Figure("runs kept and confirmed", len(confirmed), "")
    yield Figure("of these not there, or there twice",
                 sum(there[label] != 1 for label in confirmed), "", at_most=0)  # fmt: skip
    yield Figure("requests that failed", len(failed), "", at_most=0)
    yield Figure("lines that the server told of faults", len(told.splitlines()), "", at_most=0)
    yield Figure("notebook unsound afterwards", not sound, "", at_most=0)
    yield Figure("wait of a request, p95", 1000.0 * p95(waits), "ms")


@dataclass
class Visit:
    """What one client saw."""

    confirmed: list[str] = field(default_factory=list)
    failed: list[str] = field(default_factory=list)
    waits: list[float] = field(default_factory=list)


PAGES = ("/", "/runs", "/run/C1", "/setting?name=setting%200", "/search?q=C", "/new", "/rig/x",
         "/bench?of=C9", "/run/C2/copy", "/recipe", "/room")  # fmt: skip
FOUND = {"/rig/x": 404}


def _crowd(port: int, end: float) -> list[Visit]:
    token = token_at(port)

    def client(number: int) -> Visit:
        chance, visit = random.Random(number), Visit()
        connection = HTTPConnection("127.0.0.1", port, timeout=60)
        turn = 0
        while monotonic() < end:
            turn += 1
            start = monotonic()
            try:
                if chance.random() < 0.25:
                    label = f"K{number}-{turn}"
                    kept(connection, token, label)
                    visit.confirmed.append(label)
                else:
                    _read(connection, chance.choice(PAGES))
            except (OSError, HTTPException, RuntimeError) as fault:
                visit.failed.append(f"client {number}: {fault!r}")
                connection.close()
            visit.waits.append(monotonic() - start)
            sleep(chance.uniform(0.1, 0.9))
        return visit

    with ThreadPoolExecutor(CLIENTS) as pool:
        return list(pool.map(client, range(CLIENTS)))


def _read(connection: HTTPConnection, path: str) -> None:
    connection.request("GET", path)
    reply = connection.getresponse()
    text = reply.read()
    if reply.status != FOUND.get(path, 200) or b"Traceback" in text:
        raise RuntimeError(f"{path}: {reply.status}")


def main() -> Iterator[Figure]:
    """Do all of it."""
    yield from _all(KILLS, DOCUMENTS, FORMS, EXAMPLES, MINUTES)


def _all(
    wanted: int, documents: int, posts: int, examples: int, minutes: float
) -> Iterator[Figure]:
    if wanted:
        yield from killed(wanted)
    if documents:
        yield from damaged(documents)
    if posts:
        yield from forms(posts, examples)
    if minutes:
        yield from crowd(minutes)


def _typed() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=str(__doc__).splitlines()[0])
    parser.add_argument("--kills", type=int, default=KILLS)
    parser.add_argument("--documents", type=int, default=DOCUMENTS)
    parser.add_argument("--forms", type=int, default=FORMS)
    parser.add_argument("--examples", type=int, default=EXAMPLES)
    parser.add_argument("--minutes", type=float, default=MINUTES)
    return parser.parse_args()


if __name__ == "__main__":
    given = _typed()
    found = []
    for figure in _all(given.kills, given.documents, given.forms, given.examples, given.minutes):
        found.append(figure)
        print(f"{figure.what}: {figure.value:g} {figure.unit} {figure.bound}", flush=True)
    sys.exit(0 if all(figure.holds for figure in found) else 1)
