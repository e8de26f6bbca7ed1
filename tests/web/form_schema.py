"""The pages' own forms as an OpenAPI document, for tests that draw requests from a schema.

The program has no such document: it serves forms to people. The paths and methods are those of the
route table; the fields are what the forms and links of the pages themselves hold, with the values,
choices and examples that stand there.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from importlib import import_module
from pathlib import Path
from typing import Any
from urllib.parse import parse_qsl, urlsplit

from starlette.routing import Route
from starlette.testclient import TestClient

from ozonewright.notebook import Notebook
from ozonewright.web import pages
from ozonewright.web.app import create_app
from ozonewright.web.phone import Phones
from unit.gate_world import world
from web.in_process import ADDRESS, run_table

FORM = "application/x-www-form-urlencoded"
NOT_DRAWN = {"token"}
"""Put in by the caller: without it every request ends at the door."""

Names = dict[str, set[str]]
"""Fields of one form, each with the texts that the page has for it."""


@dataclass
class Operation:
    """One method of one route, and what it may be sent."""

    path: str
    method: str
    fields: Names = field(default_factory=lambda: defaultdict(set))


class Asked(HTMLParser):
    """Collects the forms and links of one page."""

    def __init__(self, here: str) -> None:
        super().__init__()
        self.here, self.forms, self.links = here, [], set[str]()
        self._select = self._label = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        own = {name: value or "" for name, value in attrs}
        if tag == "a" and own.get("href", "").startswith("/"):
            self.links.add(own["href"].partition("#")[0])
        elif tag == "form":
            action = (own.get("action") or self.here).partition("#")[0]
            self.forms.append((own.get("method", "get").upper(), action, defaultdict(set)))
        elif not self.forms:
            return
        elif tag in ("input", "textarea", "button", "select") and "name" in own:
            self._select = own["name"] if tag == "select" else ""
            self.forms[-1][2][own["name"]].add(own.get("value", ""))
            self._label = own["name"]
        elif tag == "option" and self._select:
            self.forms[-1][2][self._select].add(own.get("value", ""))

    def handle_data(self, data: str) -> None:
        # the example below a field: a text in the trade's own form, so that sums are reached
        if self.forms and self._label and data.strip().startswith("e.g. "):
            self.forms[-1][2][self._label].add(data.strip().removeprefix("e.g. "))


def table_of_routes() -> Iterator[Route]:
    """Yield every route of every page, those that are read when asked for among them."""
    yield from (route for page in pages.AT_THE_START for route in page.ROUTES)
    names = dict.fromkeys(name for several in pages.WHEN_ASKED.values() for name in several)
    for name in names:
        yield from import_module(f"{pages.__name__}.{name}").ROUTES


def at_the_desk(folder: Path, *, bare: bool = False) -> TestClient:
    """Return a client of pages with runs, a rig, a room and a reaction, or with no notebook."""
    file = folder / "bench.sqlite"
    if not bare:
        tables = world()
        # one question of the checklist stays open, so that the page asks it
        del tables["rig"]["checklist"]["fused"]
        with Notebook.create(file, "garden workshop (invented)") as notebook:
            for kind, table in tables.items():
                notebook.add(kind, table)
            for number in range(1, 4):
                times, titre = f"{120 * number} s ± 1.5 s", f"{14.2 * number:.2f} mL"
                notebook.add("run", run_table(f"C{number}", times, titre))
            notebook.add("run", run_table("A1", "240 s", "24.1 mL", setting="dry air"))
            notebook.add("run", run_table("B1", "240 s", "0.40 mL", discharge="off"))
            event = {"what": "discharge on", "of": "C9"}
            notebook.add("entry", {"entry": event})
    app = create_app(None if bare else file, folder, Phones("192.168.7.5", 8766))
    return TestClient(app, base_url=ADDRESS, raise_server_exceptions=False, follow_redirects=False)


def token_of(client: TestClient) -> str:
    """Return the token of this start."""
    text = client.get("/phone").text + client.get(FIRST_ANSWER).text
    found = re.search(r'name="token" value="([^"]+)"', text)
    assert found
    return found[1]


FIRST_ANSWER = (
    "/?run.on_time=4+min&titration.titres%5B1%5D=28.46+mL"
    "&titration.titrant.concentration=0.0510+mol%2FL"
)
STARTS = (
    "/", FIRST_ANSWER, "/bench?of=C9", "/bench?of=vanillin", "/bench?other=1", "/phone",
    "/gate?reaction=vanillin", "/clearance?reaction=vanillin", "/setting?name=dry+air",
    "/compare?first=dry+air", "/search?q=C", "/runs?page=1", "/room", "/drift", "/report?of=C1",
    "/new-rig", "/reaction/new", "/rig/workshop/drawing.svg", "/bench/state?of=C9", "/drawing.css",
    "/export", "/backup",
)  # fmt: skip


SLOW = {"/setting", "/drift", "/report"}
"""Pages that work long, and hold nothing that their own first look does not ask for."""


def operations(client: TestClient) -> list[Operation]:
    """Return each method of each route with the fields that the pages have for it."""
    found = {
        (route.path, method): Operation(route.path, method)
        for route in table_of_routes()
        for method in sorted(route.methods or ())
        if method in ("GET", "POST")
    }
    routes = {route.path: route for route in table_of_routes()}
    for method, address, fields in _asked_for(client, routes):
        path = _route_of(urlsplit(address).path, routes)
        if path is None or (path, method) not in found:
            continue
        for name, texts in fields.items():
            found[path, method].fields[name] |= texts
    return list(found.values())


def _asked_for(client: TestClient, routes: dict[str, Route]) -> Iterator[tuple[str, str, Names]]:
    """Yield what every page asks for by a form or a link, once for each route and query."""
    waiting, seen = list(STARTS), set[object]()
    while waiting:
        address = waiting.pop(0)
        parts = urlsplit(address)
        query = parse_qsl(parts.query)
        mark = (_route_of(parts.path, routes), frozenset(name for name, _ in query))
        if address in seen or (address not in STARTS and mark in seen):
            continue
        seen |= {mark, address}
        if query:
            yield "GET", address, {name: {text} for name, text in query}
        if mark[0] in SLOW and address not in STARTS:
            continue
        reply = client.get(address)
        if not reply.headers.get("content-type", "").startswith("text/html"):
            continue
        page = Asked(parts.path)
        page.feed(reply.text)
        yield from ((method, action, fields) for method, action, fields in page.forms)
        waiting += sorted(page.links)


def _route_of(path: str, routes: dict[str, Route]) -> str | None:
    # the plain address before one with a name in it, as the server looks it up
    if path in routes:
        return path
    return next((one for one, route in routes.items() if route.path_regex.match(path)), None)


def open_api(found: Iterable[Operation], ids: Iterable[str]) -> dict[str, Any]:
    """Return the document: every field is text, which a page's own texts are examples of."""
    paths: dict[str, dict[str, Any]] = defaultdict(dict)
    names = {"anyOf": [{"enum": sorted(ids)}, {"type": "string", "minLength": 1}]}
    for one in found:
        fields = {name: _text(texts) for name, texts in sorted(one.fields.items())}
        fields = {name: text for name, text in fields.items() if name not in NOT_DRAWN}
        operation: dict[str, Any] = {
            "parameters": [
                {"name": name, "in": "path", "required": True, "schema": names}
                for name in re.findall(r"\{(\w+)\}", one.path)
            ],
            "responses": {"default": {"description": "a page, or the way to one"}},
        }
        if one.method == "GET":
            operation["parameters"] += [
                {"name": name, "in": "query", "required": False, "schema": text}
                for name, text in fields.items()
            ]
        else:
            body = {"type": "object", "properties": fields, "additionalProperties": False}
            operation["requestBody"] = {"required": True, "content": {FORM: {"schema": body}}}
        paths[one.path][one.method.lower()] = operation
    return {
        "openapi": "3.1.0",
        "info": {"title": "forms of the pages", "version": "1"},
        "paths": dict(paths),
    }


def _text(texts: Iterable[str]) -> dict[str, Any]:
    return {"anyOf": [{"enum": sorted({*texts, ""})}, {"type": "string"}]}
