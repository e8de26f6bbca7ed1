"""Whatever a form is sent, the reply is a page that says what to do, and never a trace."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from ozonewright.errors import Faults, InputError
from ozonewright.notebook import Notebook
from ozonewright.web.security import HEADERS
from web.form_schema import at_the_desk, table_of_routes, token_of
from web.fuzz import drawn_requests, faults
from web.in_process import Pages

EXAMPLES = 2
"""Of each way of drawing, for each method of each route; the benchmark draws many more."""


@pytest.mark.parametrize("bare", [False, True], ids=["notebook", "no notebook"])
def test_requests_drawn_from_the_forms_end_in_pages(tmp_path: Path, bare: bool) -> None:
    with at_the_desk(tmp_path, bare=bare) as client:
        sent = drawn_requests(client, EXAMPLES, 1)
    routes = {
        f"{method} {route.path}"
        for route in table_of_routes()
        for method in route.methods or ()
        if method != "HEAD"
    }
    assert set(sent) == routes
    assert min(sent.values()) > 0


def test_the_yardstick_sees_what_it_is_for() -> None:
    page = "<h1>Nothing</h1>" + "<p>words of a page that says what to do next</p>" * 3
    sound = {"status_code": 422, "text": page, "headers": {**HEADERS, "content-type": HTML}}
    assert not list(faults(SimpleNamespace(**sound)))
    for planted in (
        {"status_code": 500},
        {"text": page + "<script>alert(1)</script>"},
        {"text": page + '<p onclick="x">'},
        {"text": page + '<a href="//elsewhere.example">'},
        {"text": page + "Traceback (most recent call last)"},
        {"text": "<h1></h1>"},
        {"headers": {"content-type": HTML}},
        {"headers": {**HEADERS, "content-type": "text/plain"}},
        {"status_code": 303, "headers": {**HEADERS, "location": "https://elsewhere.example"}},
    ):
        assert list(faults(SimpleNamespace(**sound | planted))), planted


HTML = "text/html; charset=utf-8"


def test_a_revision_of_thousands_of_digits_is_nobodys(tmp_path: Path) -> None:
    with at_the_desk(tmp_path) as client:
        for path in ("/run/C1/correct", "/rig/workshop/correct", "/reaction/vanillin/correct"):
            fields = {"token": token_of(client), "revision": "9" * 5000, "reason": "other"}
            reply = client.post(path, data=fields)
            assert reply.status_code == 422, path


def test_a_titre_beyond_all_reckoning_begins_at_nought(pages: Pages) -> None:
    reply = pages.get("/bench", params={"of": "C9", "titre": "9e999999", "step": "9e999999"})
    assert reply.status_code == 200
    assert 'value="0.00"' in reply.text


def test_answers_without_a_rig_have_nowhere_to_go(tmp_path: Path) -> None:
    with at_the_desk(tmp_path) as client:
        reply = client.post("/gate", data={"token": token_of(client), "checklist.fused": "yes"})
    assert reply.status_code == 422
    assert "keeps no rig of this label" in reply.text


def test_a_press_that_is_none_is_told_with_its_fault(pages: Pages) -> None:
    reply = pages.send("/bench/press", {"of": "C9", "what": ""})
    assert reply.status_code == 422
    assert "entry.what" in reply.text
    assert "Mend each place named" not in reply.text


@pytest.mark.parametrize(
    ("name", "text"), [("of", "C" * 5000), ("what", "gas\x07on"), ("value", "\x1b[2J")]
)
def test_a_press_holds_what_can_be_read(pages: Pages, name: str, text: str) -> None:
    reply = pages.send("/bench/press", {"of": "C9", "what": "gas on"} | {name: text})
    assert reply.status_code == 422
    with Notebook.open(pages.file, read_only=True) as notebook:
        assert not notebook.entries(kind="entry")


def test_several_faults_are_told_each_with_its_place(
    pages: Pages, monkeypatch: pytest.MonkeyPatch
) -> None:
    def two(*_: Any, **__: Any) -> None:
        raise Faults([InputError("no", where=place, fix="Mend it.") for place in ("a.b", "c.d")])

    monkeypatch.setattr("ozonewright.web.pages.home.run_rows", two)
    text = pages.get("/").text
    assert "a.b: no. Mend it." in text
    assert "c.d: no. Mend it." in text
