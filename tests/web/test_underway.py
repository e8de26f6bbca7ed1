"""Answers that take their time: worked out once, told meanwhile, the same at the end."""

from __future__ import annotations

from pathlib import Path
from threading import Event
from time import monotonic, sleep

import pytest
from starlette.testclient import TestClient

from ozonewright.web.app import create_app
from ozonewright.web.underway import Underway
from web.in_process import ADDRESS, SETTING, Pages


def test_what_is_quick_is_returned_at_once() -> None:
    assert Underway[int]().ask("a", lambda: 7, 10.0) == 7


def test_what_takes_its_time_is_made_once_and_fetched_later() -> None:
    underway, go, made = Underway[int](), Event(), []

    def make() -> int:
        go.wait(10.0)
        made.append(1)
        return 7

    assert underway.ask("a", make, 0.0) is None
    assert underway.ask("a", make, 0.01) is None
    assert 0.0 < underway.seconds("a") < 10.0
    assert underway.ask("b", lambda: 8, 10.0) == 8
    go.set()
    assert underway.ask("a", make, 10.0) == 7
    assert made == [1]
    assert underway.seconds("a") == 0.0


def test_an_error_is_told_to_who_asks_and_the_next_begins_anew() -> None:
    underway, go = Underway[int](), Event()

    def make() -> int:
        go.wait(10.0)
        raise ZeroDivisionError

    assert underway.ask("a", make, 0.0) is None
    go.set()
    with pytest.raises(ZeroDivisionError):
        underway.ask("a", make, 10.0)
    assert underway.ask("a", lambda: 7, 10.0) == 7


def test_what_nobody_fetches_is_forgotten(monkeypatch: pytest.MonkeyPatch) -> None:
    underway = Underway[int]()
    assert underway.ask("a", lambda: sleep(0.05) or 7, 0.0) is None
    sleep(0.2)
    monkeypatch.setattr("ozonewright.web.underway.FORGOTTEN", 0.0)
    underway.ask("b", lambda: 8, 10.0)
    assert underway.ask("a", lambda: 9, 10.0) == 9


def test_a_page_says_so_and_then_shows_what_one_that_waits_shows(
    pages: Pages, tmp_path: Path
) -> None:
    asked = {"setting": SETTING, "at": "", "log": ""}
    app = create_app(pages.file, tmp_path, patience=0.0)
    with TestClient(app, base_url=ADDRESS) as client:
        first = client.get("/generator", params=asked)
        assert first.status_code == 202
        assert first.headers["refresh"] == "1"
        assert "content-security-policy" in first.headers
        assert "Working it out" in first.text
        assert 'role="status"' in first.text
        assert "/generator?setting=concentrator+0.8+L%2Fmin&amp;at=" in first.text
        end = monotonic() + 60.0
        while (last := client.get("/generator", params=asked)).status_code == 202:
            assert monotonic() < end
            sleep(0.1)
        assert last.status_code == 200
        assert "refresh" not in last.headers
        assert client.get("/generator", params=asked).text == last.text

    def bare(text: str) -> str:
        return text[text.index("<main") : text.index("</main")]

    assert bare(last.text) == bare(pages.get("/generator", params=asked).text)


def test_what_must_be_mended_is_told_as_ever(pages: Pages, tmp_path: Path) -> None:
    app = create_app(pages.file, tmp_path, patience=0.0)
    with TestClient(app, base_url=ADDRESS) as client:
        end = monotonic() + 60.0
        while (last := client.get("/generator", params={"at": "flow=fast"})).status_code == 202:
            assert monotonic() < end
            sleep(0.1)
    assert last.status_code == 422
    assert "at.flow" in last.text or "fast" in last.text
