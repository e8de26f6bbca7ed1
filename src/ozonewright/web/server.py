"""Serving the pages on the loopback address until stopped."""

from __future__ import annotations

import signal
import socket
import webbrowser
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path

import uvicorn
from starlette.types import ASGIApp

from ozonewright.errors import InputError
from ozonewright.notebook import Notebook
from ozonewright.web.app import create_app
from ozonewright.web.phone import Phones

HOST = "127.0.0.1"
PORT = 8765
PHONE_PORT = 8766
"""Tried first when none is asked for; a free one otherwise."""
PATIENCE = 1.0
"""Seconds an answer is waited for before a page says that it is being worked out."""
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
    notebook: Path | None,
    port: int | None,
    browser: bool,
    tell: Callable[[str], None],
    phone: str | None = None,
    tell_phone: Callable[[str], None] | None = None,
) -> None:
    """Serve until stopped; `tell` is given the address once it answers.

    With `phone`, this machine's address in the local network, the bench page is served there to
    telephones that have a code; `tell_phone` is given the address with the first code. A file that
    is no notebook, damaged or too new raises before anything is served.
    """
    if notebook is not None and (notebook.exists() or phone is not None):
        Notebook.open(notebook, read_only=True).close()
    with ExitStack() as open_ones:
        desk = open_ones.enter_context(_listen(HOST, (port,) if port is not None else (PORT, 0)))
        sockets, phones = [desk], None
        if phone is not None:
            sockets.append(open_ones.enter_context(_listen(phone, (PHONE_PORT, 0))))
            phones = Phones(phone, sockets[1].getsockname()[1])
        address = f"http://{HOST}:{desk.getsockname()[1]}/"

        def ready() -> None:
            tell(address)
            if phones is not None and tell_phone is not None:
                tell_phone(phones.address(phones.new_code()))
            if browser:
                webbrowser.open(address)

        app = create_app(notebook, Path.cwd(), phones, PATIENCE)
        Server(_config(app), ready).run(sockets)


def _config(app: ASGIApp) -> uvicorn.Config:
    return uvicorn.Config(
        app,
        log_level="error",
        access_log=False,
        lifespan="off",
        ws="none",
        proxy_headers=False,
        server_header=False,
        timeout_keep_alive=20,
        timeout_graceful_shutdown=LAST_WORD,
    )


def _listen(host: str, ports: Sequence[int]) -> socket.socket:
    for number in ports:
        # Named as TCP, or the event loop leaves small packets waiting: 40 ms for every page.
        listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((host, number))
            listening.listen(128)
        except OSError as error:
            listening.close()
            fault = error
        else:
            return listening
    raise InputError(
        "this port can't be used" if host == HOST else "this address can't be used",
        where="--port" if host == HOST else "--phone",
        got=f"{ports[0] if host == HOST else host} ({fault.strerror})",
        fix="Give another one, or leave it out.",
    ) from fault
