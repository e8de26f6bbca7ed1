"""The pages: a cold start to the first page, stored pages beside an empty one, size, 20 clients.

Requests go over kept connections, one page of each kind in turn, so that a slow spell of the
machine strikes all alike. The empty page is the same framework and server with nothing in it.
"""

from __future__ import annotations

import gzip
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from copy import deepcopy
from http.client import HTTPConnection
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import IO
from urllib.parse import quote, urlencode

from figure import Figure

from ozonewright.bench.notebook import add_table
from ozonewright.notebook import Notebook

STARTS = 5
ROUNDS = 300
CLIENTS = 20
EACH = 25
RUNS = 12
EXAMPLE = Path(__file__).parents[1] / "docs" / "examples" / "run.toml"
FORM = "application/x-www-form-urlencoded"
EMPTY = """
import socket, uvicorn
from starlette.applications import Starlette
from starlette.responses import HTMLResponse
from starlette.routing import Route
def page(request):
    return HTMLResponse("")
listening = socket.create_server(("127.0.0.1", 0))
print(f"http://127.0.0.1:{listening.getsockname()[1]}/", flush=True)
config = uvicorn.Config(Starlette(routes=[Route("/", page)]), log_level="error", access_log=False,
                        lifespan="off", ws="none", server_header=False)
uvicorn.Server(config).run([listening])
"""


def notebook_in(folder: Path) -> Path:
    """Make a notebook of twelve runs after the example, in two settings."""
    file = folder / "bench.sqlite"
    example = tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))
    with Notebook.create(file, "benchmark") as notebook:
        for number in range(1, RUNS + 1):
            table = deepcopy(example)
            table["run"] |= {"label": f"C{number}", "setting": f"setting {number % 2}"}
            table["run"]["on_time"] = f"{200 + 10 * number} s ± 1.5 s"
            add_table(notebook, table)
    return file


@contextmanager
def serving(command: list[str], folder: Path, said: IO[str] | None = None) -> Iterator[int]:
    """Run a server until done with it; give its port. What it tells of faults goes to `said`."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    with subprocess.Popen(
        command, cwd=folder, env=environment, stdout=subprocess.PIPE, stderr=said, text=True
    ) as process:
        assert process.stdout is not None
        found = re.search(r"127\.0\.0\.1:(\d+)", process.stdout.readline())
        assert found is not None
        try:
            yield int(found[1])
        finally:
            process.terminate()


def ours(file: Path) -> list[str]:
    """Return the command that serves a notebook."""
    command = Path(sys.executable).with_name("ozonewright")
    return [str(command), "open", "--notebook", str(file), "--no-browser", "--port", "0"]


def fetched(connection: HTTPConnection, path: str) -> bytes:
    """Return a page, or raise."""
    connection.request("GET", path)
    reply = connection.getresponse()
    body = reply.read()
    if reply.status != 200:
        raise RuntimeError(f"{path}: {reply.status}")
    return body


def cold_start(file: Path) -> float:
    """Return seconds from the command to the whole first page."""
    start = perf_counter()
    with serving(ours(file), file.parent) as port:
        fetched(HTTPConnection("127.0.0.1", port), "/")
        return perf_counter() - start


def p95(times: list[float]) -> float:
    """Return the 95th percentile."""
    return quantiles(times, n=20)[-1]


def in_turn(port: int, paths: list[str], empty: int) -> dict[str, list[float]]:
    """Return the seconds of each page over the rounds; the empty one under no name."""
    own, other = HTTPConnection("127.0.0.1", port), HTTPConnection("127.0.0.1", empty)
    for path in paths:
        fetched(own, path)
    fetched(other, "/")
    times: dict[str, list[float]] = {path: [] for path in ["", *paths]}
    for _ in range(ROUNDS):
        for path in ["", *paths]:
            start = perf_counter()
            fetched(own if path else other, path or "/")
            times[path].append(perf_counter() - start)
    return times


def crowd(port: int, paths: list[str]) -> int:
    """Return how many requests failed while 20 clients read and write at once."""
    token = token_at(port)

    def client(number: int) -> int:
        connection = HTTPConnection("127.0.0.1", port, timeout=60)
        failed = 0
        for turn in range(EACH):
            try:
                if number % 5 == 0 and turn % 5 == 0:
                    kept(connection, token, f"K{number}-{turn}")
                else:
                    fetched(connection, paths[(number + turn) % len(paths)])
            except (OSError, RuntimeError):
                failed += 1
        return failed

    with ThreadPoolExecutor(CLIENTS) as pool:
        return sum(pool.map(client, range(CLIENTS)))


def token_at(port: int) -> str:
    """Return the token of the forms."""
    page = fetched(HTTPConnection("127.0.0.1", port), "/new").decode()
    token = re.search(r'name="token" value="([^"]+)"', page)
    assert token is not None
    return token[1]


def kept(connection: HTTPConnection, token: str, label: str) -> None:
    """Keep a run by the form, or raise."""
    fields = {
        "token": token,
        "sheet": label,
        "run.label": label,
        "run.on_time": "4 min",
        "titration.titres[1]": "28.46 mL",
        "titration.titrant.concentration": "0.0510 mol/L",
    }
    connection.request("POST", "/new", urlencode(fields), {"content-type": FORM})
    reply = connection.getresponse()
    reply.read()
    if reply.status != 303:
        raise RuntimeError(f"not kept: {reply.status}")


def main() -> list[Figure]:
    """Return the figures of the pages."""
    paths = ["/", "/runs", "/run/C1", f"/setting?name={quote('setting 0')}"]
    with TemporaryDirectory() as name:
        folder = Path(name)
        file = notebook_in(folder)
        start = median(cold_start(file) for _ in range(STARTS))
        with (
            serving([sys.executable, "-c", EMPTY], folder) as empty,
            serving(ours(file), folder) as port,
        ):
            times = in_turn(port, paths, empty)
            connection = HTTPConnection("127.0.0.1", port)
            style = len(gzip.compress(fetched(connection, "/static/paper.css")))
            sizes = [
                len(gzip.compress(fetched(connection, path))) + style for path in [*paths, "/new"]
            ]
            failed = crowd(port, paths)
    slowest = max(p95(times[path]) for path in paths)
    return [
        Figure("first page from a cold command", start, "s", at_most=1.5),
        Figure(
            "slowest stored page over an empty page, p95",
            slowest / p95(times[""]),
            "×",
            at_most=5.0,
        ),
        Figure("largest page with its style, compressed", max(sizes) / 1000.0, "kB", at_most=150.0),
        Figure(
            f"failed requests of {CLIENTS} clients, reading and keeping", failed, "", at_most=0.0
        ),
        Figure("slowest stored page, p95", 1000.0 * slowest, "ms"),
        Figure("empty page, p95", 1000.0 * p95(times[""]), "ms"),
    ]
