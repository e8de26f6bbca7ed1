"""Requests drawn by schemathesis from the pages' own forms, and what every reply must keep to.

The test sends a few of each route, the benchmark many more.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

import schemathesis
from hypothesis import HealthCheck, Phase, given, seed, settings
from schemathesis import GenerationMode
from starlette.testclient import TestClient

from ozonewright.web.security import HEADERS
from web.form_schema import open_api, operations, token_of

IDS = ("C1", "A1", "B1", "workshop", "vanillin", "C9")
KINDS = ("text/html; charset=utf-8", "text/css; charset=utf-8", "image/svg+xml",
         "application/json", "application/pdf", "application/zip",
         "application/vnd.sqlite3")  # fmt: skip
TRACE = re.compile(r"Traceback \(most recent|File &#34;|File \"[^\"]+\.py\"|made a mistake")
NOBODY_ELSE = re.compile(r"^(?:/(?!/)|#|$)")
"""Links lead to pages of ours."""
OUR_FIGURES = re.compile(r"^data:(?:image/svg\+xml|text/csv);base64,[A-Za-z0-9+/=]*$")


class Shown(HTMLParser):
    """Collects what a browser would run or fetch, and the text of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.odd: list[str] = []
        self.heads = self.words = ""
        self._head = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        own = {name: value or "" for name, value in attrs}
        ours = tag == "script" and own.get("src") == "/static/bench.js"
        if tag in ("script", "img", "style", "iframe", "object", "embed", "base") and not ours:
            self.odd.append(tag)
        self.odd += [name for name in own if name.startswith("on")]
        places = [own[name] for name in ("href", "action", "src", "formaction") if name in own]
        # a figure to save comes with its page
        kept = tag == "a" and "download" in own and OUR_FIGURES.match(places[0])
        self.odd += [place[:80] for place in places if not NOBODY_ELSE.match(place) and not kept]
        self._head = tag in ("h1", "h2", "title")

    def handle_endtag(self, tag: str) -> None:
        self._head = False

    def handle_data(self, data: str) -> None:
        self.words += data
        self.heads += data.strip() if self._head else ""


def faults(reply: Any) -> Iterator[str]:
    """Yield what is wrong with one reply; nothing where all is well."""
    status, kind = reply.status_code, reply.headers.get("content-type", "")
    if status >= 500:
        yield f"status {status}"
    missing = [name for name in HEADERS if name not in reply.headers]
    if missing:
        yield f"without {', '.join(missing)}"
    if status in (303, 307):
        if not NOBODY_ELSE.match(reply.headers["location"]):
            yield f"leads away: {reply.headers['location']}"
        return
    if kind not in KINDS:
        yield f"content type {kind!r}"
    if kind.startswith("text/html"):
        yield from _page_faults(reply.text, status)
    elif status >= 400 and kind != "application/json":
        yield f"told as {kind}"


def _page_faults(text: str, status: int) -> Iterator[str]:
    page = Shown()
    page.feed(text)
    if page.odd:
        yield f"runs or fetches {page.odd[:3]}"
    if TRACE.search(text):
        yield "a trace"
    if status >= 400 and (not page.heads or len(page.words) < 60):
        yield "no message"


def drawn_requests(client: TestClient, examples: int, number: int) -> dict[str, int]:
    """Send requests drawn for each operation; return how many each was sent.

    A fault ends in an AssertionError that names the request.
    """
    token = token_of(client)
    schema = schemathesis.openapi.from_dict(open_api(operations(client), IDS))
    sent: dict[str, int] = {}
    for result in schema.get_all_operations():
        operation = result.ok()
        name = f"{operation.method.upper()} {operation.path}"
        sent[name] = sum(
            _drawn(client, operation, mode, token, examples, number) for mode in _modes(operation)
        )
    return sent


def _modes(operation: Any) -> list[GenerationMode]:
    """Return the ways of drawing: as the form says, and where there are fields against it."""
    fields = [one.definition["schema"].get("properties") for one in operation.body]
    return list(GenerationMode) if operation.query or any(fields) else [GenerationMode.POSITIVE]


def _drawn(
    client: TestClient, operation: Any, mode: GenerationMode, token: str, examples: int, number: int
) -> int:
    count = 0

    @seed(number)
    @settings(
        max_examples=examples,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(operation.as_strategy(generation_mode=mode))
    def one(case: Any) -> None:
        nonlocal count
        count += 1
        reply = sent_by(client, case, token)
        wrong = list(faults(reply))
        assert not wrong, (wrong, case.method, str(reply.url), case.body)

    one()
    return count


def sent_by(client: TestClient, case: Any, token: str) -> Any:
    """Send one drawn case as a browser would, with the token that a page carries."""
    if isinstance(case.body, dict) and case.method.upper() == "POST":
        case.body = {"token": token, **case.body}
    request = case.as_transport_kwargs(base_url=str(client.base_url))
    body = {name: request[name] for name in ("data", "json") if request.get(name) is not None}
    headers = dict(request.get("headers") or {})
    headers = {name: text for name, text in headers.items() if name.lower() == "content-type"}
    return client.request(
        request["method"],
        request["url"],
        params=request.get("params"),
        headers=headers,
        **body,
    )
