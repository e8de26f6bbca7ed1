"""Who may ask, what every reply carries, and that typed text stays text."""

from __future__ import annotations

import re
from base64 import b64decode, b64encode
from html.parser import HTMLParser
from typing import Any

import pytest

from ozonewright.web.form import fields_of
from ozonewright.web.run_form import run_groups
from ozonewright.web.security import LARGEST_BODY, MOST_FIELDS, is_loopback
from web.in_process import Pages

HOSTILE = (
    '"><script>alert(1)</script>',
    "'><img src=x onerror=alert(1)>",
    "{{ 7*7 }}{% raw %}",
    "</textarea></select></title><svg onload=alert(1)>",
    "javascript:alert(1)",
    "'; DROP TABLE entry; --",
    "$(reboot) `id` %s %n ../../etc/passwd",
    "\u202egnitset\u202c \u200b\ufeff é 漢字 🧪",
    "a\x00b\x1b[31mc",
    "\ud7ff" * 200,
    "&amp;lt;b&gt;",
)
SAFE_PAGES = ("/", "/runs", "/new", "/search?q=C", "/run/C1", "/run/C1/copy", "/run/C1/correct")


@pytest.mark.parametrize(
    ("host", "ours"),
    [
        ("127.0.0.1:8765", True),
        ("localhost:9000", True),
        ("[::1]:8765", True),
        ("127.0.0.1", True),
        ("evil.example", False),
        ("127.0.0.1.evil.example:8765", False),
        ("localhost.evil.example", False),
        ("evil.example#127.0.0.1", False),
        ("127.0.0.1@evil.example", False),
        ("127.0.0.1:x", False),
        ("0.0.0.0:8765", False),
        ("", False),
    ],
)
def test_only_names_of_this_machine(host: str, ours: bool) -> None:
    assert is_loopback(host) is ours


@pytest.mark.parametrize("path", SAFE_PAGES)
def test_a_foreign_host_sees_nothing(pages: Pages, path: str) -> None:
    reply = pages.get(path, headers={"host": "evil.example"})
    assert reply.status_code == 421
    assert "garden workshop" not in reply.text


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "http://127.0.0.1:1", "https://127.0.0.1:8765"]
)
def test_a_foreign_origin_can_neither_read_nor_write(pages: Pages, origin: str) -> None:
    assert pages.get("/", headers={"origin": origin}).status_code == 403
    reply = pages.send("/undo", {}, headers={"origin": origin})
    assert reply.status_code == 403
    assert "withdrawn" not in pages.get("/runs").text


def test_our_own_origin_writes(pages: Pages) -> None:
    own = {"origin": "http://127.0.0.1:8765", "sec-fetch-site": "same-origin"}
    assert pages.send("/undo", {}, headers=own).status_code == 303
    assert pages.send("/undo", {}, headers={"sec-fetch-site": "cross-site"}).status_code == 403


@pytest.mark.parametrize(
    "path", ["/new", "/undo", "/run/C1/copy", "/run/C1/correct", "/run/C1/withdraw", "/begin"]
)
@pytest.mark.parametrize("token", [None, "", "wrong", "é"])
def test_no_act_without_the_token(pages: Pages, path: str, token: str | None) -> None:
    fields = {"reason": "other"} | ({} if token is None else {"token": token})
    assert pages.client.post(path, data=fields).status_code == 403
    assert "withdrawn" not in pages.get("/runs").text


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_no_other_methods(pages: Pages, method: str) -> None:
    assert pages.client.request(method, "/").status_code >= 400


def test_acts_are_not_done_by_looking(pages: Pages) -> None:
    for path in ("/undo", "/run/C1/withdraw", "/begin"):
        assert pages.get(path).status_code in (404, 405)


@pytest.mark.parametrize(
    "path", [*SAFE_PAGES, "/nope", "/run/nope", "/static/paper.css", "/static/nope", "/undo"]
)
def test_every_reply_carries_the_headers(pages: Pages, path: str) -> None:
    headers = pages.get(path).headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert headers["x-frame-options"] == "DENY"
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert headers["cache-control"] in ("no-store", "no-cache")


def test_even_our_own_fault_carries_them(pages: Pages, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: Any, **__: Any) -> None:
        raise RuntimeError("planted")

    monkeypatch.setattr("ozonewright.web.pages.home.run_rows", broken)
    reply = pages.get("/")
    assert reply.status_code == 500
    assert "made a mistake" in reply.text
    assert "planted" not in reply.text
    assert reply.headers["x-frame-options"] == "DENY"


@pytest.mark.parametrize("path", SAFE_PAGES)
def test_pages_hold_no_script_no_style_and_nothing_from_elsewhere(pages: Pages, path: str) -> None:
    text = pages.get(path).text
    assert not re.search(r"<script|<style|\sstyle=|\son\w+=|javascript:", text)
    assert not re.findall(r'(?:src|href|action)="(?!/|#)[^"]*"', text)


def test_forms_have_limits(pages: Pages) -> None:
    assert pages.send("/new", {"run.remark": "x" * LARGEST_BODY}).status_code == 413
    assert pages.send("/new", {f"f{n}": "" for n in range(MOST_FIELDS + 1)}).status_code == 400
    assert pages.get("/search?q=" + "x" * 20_000).status_code == 414
    other = pages.client.post("/new", json={"token": pages.token()})
    assert other.status_code == 415
    broken = pages.client.post(
        "/new",
        content=b"run.label=%ff%fe",
        headers={"content-type": "application/x-www-form-urlencoded"},
    )
    assert broken.status_code == 400


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_in_every_field_stays_text(pages: Pages, text: str) -> None:
    fields = {one.place: text for one in fields_of(run_groups())}
    reply = pages.send("/new", fields | {"sheet": "h"})
    assert reply.status_code == 422
    _clean(reply.text)


@pytest.mark.parametrize("text", HOSTILE[:8])
def test_hostile_text_that_is_kept_stays_text_on_every_page(pages: Pages, text: str) -> None:
    words = ("run.label", "run.setting", "run.by", "run.remark", "run.rig", "run.room")
    fields = {place: text for place in words} | {
        "run.on_time": "4 min",
        "titration.titres[1]": "28.46 mL",
        "titration.titrant.concentration": "0.0510 mol/L",
        "sheet": "h",
    }
    reply = pages.send("/new", fields)
    assert reply.status_code == 303
    where = reply.headers["location"].partition("?")[0]
    looked = [where, f"{where}/copy", f"{where}/correct", "/", "/runs", "/new"]
    for path in looked:
        shown = pages.get(path)
        assert shown.status_code == 200
        _clean(shown.text)
    for path in ("/search", "/setting"):
        shown = pages.get(path, params={"q": text, "name": text})
        assert shown.status_code == 200
        _clean(shown.text)
    assert pages.get("/export").status_code == 200


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("path", ["/search", "/setting", "/", "/runs"])
def test_hostile_text_in_the_address_stays_text(pages: Pages, path: str, text: str) -> None:
    names = ("q", "name", "done", "page", "run.on_time")
    reply = pages.get(path, params={name: text[:500] for name in names})
    assert reply.status_code in (200, 404)
    _clean(reply.text)


class _Elements(HTMLParser):
    """Collects what a browser would act upon."""

    def __init__(self) -> None:
        super().__init__()
        self.odd: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("script", "img", "style", "iframe", "object"):
            self.odd.append(tag)
        self.odd += [name for name, _ in attrs if name.startswith("on") or name == "style"]
        links = [str(value) for name, value in attrs if name in ("href", "action", "src")]
        if tag == "a" and "download" in dict(attrs):
            links = [link for link in links if not self._is_clean_file(link)]
        self.odd += [link for link in links if not link.startswith(("/", "#"))]

    def _is_clean_file(self, link: str) -> bool:
        """Return whether a link holds a figure or its numbers, and nothing that acts."""
        kind, found, content = link.partition(";base64,")
        if not found or kind not in ("data:image/svg+xml", "data:text/csv"):
            return False
        if kind.endswith("csv"):
            return True
        inside = _Elements()
        inside.feed(b64decode(content).decode())
        return set(inside.odd) <= {"style"}  # it brings its own look


def _clean(text: str) -> None:
    elements = _Elements()
    elements.feed(text)
    assert elements.odd == []


@pytest.mark.parametrize("inside", ["<svg onload='x()'/>", "<svg><script>x()</script></svg>"])
def test_a_file_to_save_that_acts_would_be_found(inside: str) -> None:
    link = f"data:image/svg+xml;base64,{b64encode(inside.encode()).decode()}"
    with pytest.raises(AssertionError):
        _clean(f'<a download="f.svg" href="{link}">save</a>')
    _clean('<a download="f.svg" href="data:image/svg+xml;base64,PHN2Zy8+">save</a>')
