"""Serving the pages on the loopback address until stopped."""

from __future__ import annotations

import signal
import socket
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn

from ozonewright.errors import InputError
from ozonewright.notebook import Notebook
from ozonewright.web.app import create_app

HOST = "127.0.0.1"
PORT = 8765
"""Tried first when none is asked for; a free one otherwise."""
LAST_WORD = 3
"""Seconds that a page being made is waited for at the end."""


class Server(uvicorn.Server):
    """Stops on SIGINT and SIGTERM as on a wish of the person: cleanly, exit 0."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to listen, and say so."""
        await super().startup(sockets)
        if self.started:
            self._ready()

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Take the two signals while serving, and do not raise them again afterwards."""
        before = {
            one: signal.signal(one, self.handle_exit) for one in (signal.SIGINT, signal.SIGTERM)
        }
        try:
            yield
        finally:
            for one, handler in before.items():
                signal.signal(one, handler)


def serve(
    notebook: Path | None, port: int | None, browser: bool, tell: Callable[[str], None]
) -> None:
    """Serve until stopped; `tell` is given the address once it answers.

    A file that is no notebook, damaged or too new raises before anything is served.
    """
    if notebook is not None and notebook.exists():
        Notebook.open(notebook, read_only=True).close()
    listening = _listen(port)
    address = f"http://{HOST}:{listening.getsockname()[1]}/"

    def ready() -> None:
        tell(address)
        if browser:
            webbrowser.open(address)

    config = uvicorn.Config(
        create_app(notebook, Path.cwd()),
        log_level="error",
        access_log=False,
        lifespan="off",
        ws="none",
        proxy_headers=False,
        server_header=False,
        timeout_keep_alive=20,
        timeout_graceful_shutdown=LAST_WORD,
    )
    with listening:
        Server(config, ready).run([listening])


def _listen(port: int | None) -> socket.socket:
    for number in (port,) if port is not None else (PORT, 0):
        # Named as TCP, or the event loop leaves small packets waiting: 40 ms for every page.
        listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((HOST, number))
            listening.listen(128)
        except OSError as error:
            listening.close()
            fault = error
        else:
            return listening
    raise InputError(
        "this port can't be used",
        where="--port",
        got=f"{port} ({fault.strerror})",
        fix="Give another one, or leave --port out.",
    ) from fault
