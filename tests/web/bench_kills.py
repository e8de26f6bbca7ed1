"""Killing the server while telephones press, for the tests and (more of it) for the benchmark.

A client keeps a press and sends it again until it is told as stored, as the page's script does.
"""

from __future__ import annotations

import json
import os
import random
import re
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from ozonewright.notebook import Notebook
from ozonewright.notebook.acts import new_id

FORM = {"content-type": "application/x-www-form-urlencoded", "accept": "application/json"}
OF = "C9"
PATIENCE = 60.0
"""Seconds without an answer after which the server is given up."""


@dataclass
class Server:
    """A server that is killed and started again on the same port."""

    file: Path
    port: int = 0
    process: subprocess.Popen[str] | None = None

    def start(self) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "ozonewright", "open", "--notebook", str(self.file),
             "--no-browser", "--port", str(self.port)],
            cwd=self.file.parent, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
            env=dict(os.environ),
        )  # fmt: skip
        assert self.process.stdout is not None
        said = self.process.stdout.readline()
        if "port can't be used" in said:
            # somebody else has taken it meanwhile: any other will do
            self.kill()
            self.port = 0
            return self.start()
        found = re.search(r"127\.0\.0\.1:(\d+)", said)
        assert found is not None, said
        self.port = int(found[1])
        return None

    def kill(self) -> None:
        assert self.process is not None
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        assert self.process.stdout is not None
        self.process.stdout.close()


@dataclass
class Client:
    """One page: it keeps what it pressed until it is told as stored."""

    server: Server
    token: str = ""
    waiting: list[tuple[dict[str, str], float]] = field(default_factory=list)
    stored: list[str] = field(default_factory=list)
    sent: int = 0

    def press(self, what: str) -> None:
        self.waiting.append(({"id": new_id(), "what": what, "of": OF}, time.monotonic()))

    def flush(self) -> None:
        """Send until nothing waits; whatever goes wrong, the press stays."""
        end = time.monotonic() + PATIENCE
        while self.waiting:
            assert time.monotonic() < end, "no server answers any more"
            fields, pressed = self.waiting[0]
            try:
                ago = f"{time.monotonic() - pressed:.3f}"
                status, _ = self._ask("POST", "/bench/press", fields | {"ago": ago})
                if status == 403:
                    self.token = str(self.look()["token"])
                    continue
            except (OSError, HTTPException, ValueError):
                time.sleep(0.02)
                continue
            assert status == 200, status
            self.stored.append(fields["id"])
            self.waiting.pop(0)

    def look(self) -> dict[str, Any]:
        """Load the page's state anew."""
        found: dict[str, Any] = self._ask("GET", f"/bench/state?of={OF}")[1]
        return found

    def _ask(self, method: str, path: str, fields: dict[str, str] | None = None) -> Any:
        connection = HTTPConnection("127.0.0.1", self.server.port, timeout=5)
        body = urlencode(fields | {"token": self.token}) if fields else None
        self.sent += 1
        try:
            connection.request(method, path, body, FORM if fields else {})
            reply = connection.getresponse()
            read = reply.read()
            return reply.status, json.loads(read) if reply.status == 200 else None
        finally:
            connection.close()


@contextmanager
def killing(server: Server, kills: int, chance: random.Random) -> Iterator[threading.Thread]:
    """Kill and restart beside whatever goes on."""

    def again() -> None:
        for _ in range(kills):
            time.sleep(chance.uniform(0.0, 0.4))
            server.kill()
            server.start()

    thread = threading.Thread(target=again)
    thread.start()
    try:
        yield thread
    finally:
        thread.join()


@dataclass
class Outcome:
    """What the kills left behind."""

    pressed: int
    lost: int
    twice: int
    on_time: float
    truth: float
    """On-time by the clock of the presser, in seconds."""
    gap: float
    faults: list[str]


def pressed_through_kills(folder: Path, kills: int, clients: int, seed: int) -> Outcome:
    """Press while the server is killed again and again, and count what became of it."""
    chance = random.Random(seed)
    server = Server(folder / "kills.sqlite")
    Notebook.create(server.file, "kills").close()
    server.start()
    hands = [Client(server) for _ in range(clients)]
    truth, on, since, pressed = 0.0, False, 0.0, 0
    try:
        hands[0].press("gas on")
        hands[0].flush()
        with killing(server, kills, chance) as killer:
            while killer.is_alive() or on or pressed <= kills:
                hand = chance.choice(hands)
                now = time.monotonic()
                hand.press("stop" if on else "discharge on")
                truth, on, since = truth + (now - since if on else 0.0), not on, now
                pressed += 1
                hand.flush()
                time.sleep(chance.uniform(0.0, 0.05))
        found = hands[0].look()
    finally:
        server.kill()
    told = [id for hand in hands for id in hand.stored]
    with Notebook.open(server.file, read_only=True) as notebook:
        ids = [entry.id for entry in notebook.entries(kind="entry")]
        faults = notebook.integrity()
    return Outcome(
        pressed=pressed + 1,
        lost=len(set(told) - set(ids)),
        twice=len(ids) - (pressed + 1),
        on_time=found["on_time"],
        truth=truth,
        gap=sum("Restarted between" in note["text"] for note in found["notes"]),
        faults=faults,
    )
