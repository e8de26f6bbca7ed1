"""The gate: every check in words, the checklist to answer, the verdict kept for the bench."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.clock import now
from ozonewright.bench.gate import TYPED, answer, gate_of, keep
from ozonewright.errors import AppError
from ozonewright.notebook import Notebook
from ozonewright.questions.gate import Check, Gate
from ozonewright.show.gate import (
    ABORT,
    HEADS,
    MARKS,
    ORDER_OF_WORK,
    answer_line,
    figures,
    key,
    open_question,
    statement,
    subject,
    title,
)
from ozonewright.show.pages import Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.show.words import sentence
from ozonewright.web.form import Field, Form, Group, with_faults
from ozonewright.web.pages.common import acts, page
from ozonewright.web.view import Page

NAMED = ("reaction", "rig", "room")
HINTS = {
    "output": ("Ozone, where no reaction tells it", "0.62 g/h"),
    "flow": ("Gas", "0.8 L/min"),
    "slip": ("Share that slips past the flask", "5 %"),
    "leak": ("Share that leaks at joints", "1 %"),
    "on_time": ("Longest the discharge is on", "60 min"),
}


@dataclass(frozen=True, slots=True)
class CheckLine:
    """One check as the page shows it."""

    title: str
    mark: str
    verdict: str
    why: str
    figures: str
    mend: str


@dataclass(frozen=True, slots=True)
class Question:
    """One open question of the checklist."""

    key: str
    statement: str
    mark: str


@dataclass(frozen=True, slots=True)
class Section:
    """The checks of one verdict."""

    head: str
    verdict: str
    checks: tuple[CheckLine, ...]
    questions: tuple[Question, ...]


@dataclass(frozen=True)
class GatePage(Page):
    """The gate of what the notebook keeps."""

    template = "gate.html"
    form: Form
    sheet: str = ""
    mark: str = ""
    answer: str = ""
    of: str = ""
    rig: str = ""
    reaction: str = ""
    next: tuple[str, ...] = ()
    sections: tuple[Section, ...] = ()
    order: tuple[str, ...] = ORDER_OF_WORK
    abort: tuple[str, ...] = ABORT
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _groups(notebook: Notebook) -> tuple[Group, ...]:
    def choice(kind: str, words: str, none: str) -> Field:
        labels = [entry.label for entry in notebook.entries(kind=kind)][::-1]
        return Field(
            kind,
            words,
            kind="choice",
            choices=(("", none), *((label, label) for label in labels)),
        )

    return (
        Group(
            "",
            (
                choice("reaction", "Reaction", "none: an assay in water"),
                choice("rig", "Rig", "that of the reaction, or the last"),
                choice("room", "Room", "that of the reaction, or the last"),
                *(Field(name, *HINTS[name]) for name in TYPED),
            ),
            closed=False,
        ),
    )


def _line(check: Check) -> CheckLine:
    return CheckLine(
        title=title(check),
        mark=MARKS[check.verdict],
        verdict=check.verdict,
        why=sentence(check.text) if check.text else "",
        figures=figures(check),
        mend=sentence(check.mend) if check.mend else "",
    )


def _sections(found: Gate) -> tuple[Section, ...]:
    return tuple(
        Section(
            head,
            verdict,
            tuple(_line(check) for check in checks if not open_question(check)),
            tuple(
                Question(key(check), statement(check), MARKS[check.verdict])
                for check in checks
                if open_question(check)
            ),
        )
        for verdict, head in HEADS.items()
        if (checks := [check for check in found.checks if check.verdict == verdict])
    )


def _page(notebook: Notebook, sent: dict[str, str], error: AppError | None = None) -> GatePage:
    form = Form(_groups(notebook), sent)
    if error is not None:
        return GatePage("Gate", with_faults(form, error))
    try:
        found = _found(notebook, sent)
    except AppError as trouble:
        return GatePage("Gate", with_faults(form, trouble))
    return GatePage(
        "Gate",
        form,
        sheet=secrets.token_hex(8),
        mark=MARKS[found.verdict],
        answer=answer_line(found),
        of=subject(found),
        rig=found.rig or "",
        reaction=sent.get("reaction", ""),
        next=sentences(found.next[:3]),
        sections=_sections(found),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


def _found(notebook: Notebook, sent: dict[str, str]) -> Gate:
    return gate_of(
        notebook,
        reaction=sent.get("reaction") or None,
        rig=sent.get("rig") or None,
        room=sent.get("room") or None,
        texts={name: sent.get(name, "").strip() or None for name in TYPED},
    )


def _asked(sent: dict[str, str]) -> dict[str, str]:
    return {name: sent[name] for name in (*NAMED, *TYPED) if sent.get(name, "").strip()}


@page
def gate(request: Request, notebook: Notebook) -> Page:
    """Show the gate of the reaction, rig and room that are asked for."""
    return _page(notebook, dict(request.query_params))


@acts
def act(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep answers of the checklist in the rig, or the verdict for the bench."""
    asked = _asked(sent)
    try:
        if sent.get("do") == "keep":
            keep(notebook, _found(notebook, sent), sent.get("reaction", ""), now())
        else:
            answers = {
                name.removeprefix("checklist."): value == "yes"
                for name, value in sent.items()
                if name.startswith("checklist.") and value in ("yes", "no")
            }
            answer(notebook, sent.get("of_rig", ""), answers)
    except AppError as error:
        return _page(notebook, asked, error)
    return f"/gate?{urlencode(asked | {'done': 'kept'})}"


ROUTES = (
    Route("/gate", gate, methods=["GET"]),
    Route("/gate", act, methods=["POST"]),
)
