"""The server in this process: it answers, and stops cleanly when asked to."""

from __future__ import annotations

import os
import signal
import socket
import sys
import threading
from pathlib import Path
from urllib.request import urlopen

import pytest
from click.testing import CliRunner

from ozonewright.cli.open import command
from ozonewright.errors import Damaged, InputError
from ozonewright.notebook import Notebook
from ozonewright.web import server


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_it_serves_until_stopped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: signal.Signals
) -> None:
    Notebook.create(tmp_path / "bench.sqlite", "bench").close()
    before = signal.getsignal(number)
    opened: list[str] = []
    said: list[str] = []
    monkeypatch.setattr(server.webbrowser, "open", opened.append)

    def look(address: str) -> None:
        with urlopen(address, timeout=10) as reply:
            said.append(reply.read().decode())
        os.kill(os.getpid(), number)

    def tell(address: str) -> None:
        threading.Thread(target=look, args=(address,)).start()

    server.serve(tmp_path / "bench.sqlite", 0, True, tell)
    assert "No run yet" in said[0]
    assert opened
    assert opened[0].startswith("http://127.0.0.1:")
    assert signal.getsignal(number) is before


def test_what_is_no_notebook_is_refused_before_anything_is_served(tmp_path: Path) -> None:
    (tmp_path / "odd.sqlite").write_text("odd")
    with pytest.raises(Damaged):
        server.serve(tmp_path / "odd.sqlite", 0, False, lambda _: None)


def test_a_port_in_use_is_told() -> None:
    with socket.create_server((server.HOST, 0)) as taken, pytest.raises(InputError, match="port"):
        server.serve(None, taken.getsockname()[1], False, lambda _: None)


def test_the_command_passes_on_what_it_was_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[object] = []

    def serve(
        notebook: object, port: object, browser: object, tell: object, phone: object, say: object
    ) -> None:
        asked.extend([notebook, port, browser, phone])
        assert callable(tell)
        tell("http://127.0.0.1:1/")

    monkeypatch.setattr(server, "serve", serve)
    file = tmp_path / "bench.sqlite"
    done = CliRunner().invoke(command, ["--notebook", str(file), "--port", "7", "--no-browser"])
    assert done.exit_code == 0, done.output
    assert "http://127.0.0.1:1/" in done.output
    assert asked == [file, 7, False, None]
    assert sys.modules["ozonewright.web.server"] is server
