"""Clearance: locked or clear, the tests, what to do next, the waste."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import quote

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.clearance import clearance_of, log_quench, log_test, reactions
from ozonewright.bench.clock import now
from ozonewright.errors import AppError
from ozonewright.notebook import Notebook
from ozonewright.show.clearance import STATES, answer_line, test_texts, waste_texts, why_line
from ozonewright.show.pages import Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.web.form import Field, Form, Group, with_faults
from ozonewright.web.pages.common import acts, page
from ozonewright.web.view import NavEntry, Page

GROUPS = (
    Group(
        "",
        (
            Field(
                "method",
                "How it was tested",
                kind="choice",
                choices=(("strip", "strip"), ("iodide", "acidified iodide"), ("other", "other")),
            ),
            Field("by", "By", "initials"),
            Field("at", "When, if not now", "14:05"),
            Field("entry.value", "How long the quench takes", "2 h"),
        ),
        closed=False,
    ),
)


@dataclass(frozen=True)
class ClearancePage(Page):
    """One reaction, or the choice of one."""

    template = "clearance.html"
    of: str
    form: Form
    others: tuple[NavEntry, ...]
    sheet: str = ""
    mark: str = ""
    answer: str = ""
    why: str = ""
    needed: tuple[str, ...] = ()
    tests: tuple[tuple[str, str, str, str, str], ...] = ()
    waste: tuple[tuple[str, str, str, str], ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _path(label: str) -> str:
    return f"/clearance?of={quote(label, safe='')}"


def _page(notebook: Notebook, of: str, form: Form) -> ClearancePage:
    others = tuple(NavEntry(one, _path(one)) for one in reactions(notebook) if one != of)
    if not of:
        return ClearancePage("Clearance", "", form, others)
    found = clearance_of(notebook, of, now().wall)
    return ClearancePage(
        f"Clearance of {of}",
        of,
        form,
        others,
        sheet=secrets.token_hex(8),
        mark=STATES[found.state][0],
        answer=answer_line(found),
        why=why_line(found),
        needed=sentences(found.needed),
        tests=tuple(test_texts(row) for row in found.tests),
        waste=tuple(waste_texts(row) for row in found.waste),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


@page
def clearance(request: Request, notebook: Notebook) -> Page:
    """Show a reaction's clearance as it stands now."""
    return _page(notebook, request.query_params.get("of", ""), Form(GROUPS, {}))


@acts
def log(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a test or the quench."""
    of = sent.get("of", "")
    typed = {name: sent.get(name, "").strip() for name in ("method", "by", "at", "entry.value")}
    try:
        _keep(notebook, of, sent.get("reading", ""), typed)
    except AppError as error:
        return _page(notebook, of, with_faults(Form(GROUPS, typed), error))
    return f"{_path(of)}&done=kept"


def _keep(notebook: Notebook, of: str, reading: str, typed: Mapping[str, str]) -> None:
    at = typed["at"] or None
    if reading == "quench":
        log_quench(notebook, of, now(), takes=typed["entry.value"] or None, at=at)
    else:
        method, by = typed["method"] or None, typed["by"] or None
        log_test(notebook, of, reading, now(), method=method, by=by, at=at)


ROUTES = (
    Route("/clearance", clearance, methods=["GET"]),
    Route("/clearance", log, methods=["POST"]),
)
