"""A rig: its drawing, its document as typed, its history; a new one, corrected, copied."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.rig import rig_of
from ozonewright.documents.load import read_text
from ozonewright.errors import AppError, Faults, InputError, NotFound
from ozonewright.notebook import REASONS, Entry, Notebook
from ozonewright.questions.gas_line.gaps import unknowns
from ozonewright.show.drawing import drawing_file, style
from ozonewright.show.notebook import as_toml
from ozonewright.web.desk import Desk
from ozonewright.web.history import Event, events
from ozonewright.web.pages.common import acts, entry_path, page, stored
from ozonewright.web.pages.kept import (
    CORRECT,
    WITHDRAWALS,
    entry_of,
    reason_in,
    revision_in,
    withdrawal,
)
from ozonewright.web.pages.new import next_label
from ozonewright.web.pages.sketch import Sketch, sketch_of
from ozonewright.web.view import Page, desk_of

LONGEST = 60_000
CHANGED = (
    "A rig that was changed on the bench is a new revision too: "
    "runs keep the one they were made with."
)
STARTER = """\
[rig]
label = "workshop"
ambient = { temperature = "20 °C", pressure = "101.3 kPa", humidity = "50 %" }

# one [[part]] for each part, in flow order; a part that follows another
# than the one above it says: after = "tee"
[[part]]
name = "pump"
kind = "pump"
free_flow = "3.0 L/min"
shut_off = "18 kPa"

[[part]]
name = "line"
kind = "tube"
bore = "4 mm"
length = "1.5 m"

[[part]]
name = "check valve"
kind = "check valve"
cracking = "1 kPa"

[[part]]
name = "safety bottle"
kind = "safety bottle"
volume = "250 mL"

[[part]]
name = "dip tube"
kind = "sparger"
form = "open tube"
bore = "4 mm"

[[part]]
name = "washing bottle"
kind = "bottle"
liquid = "water"
volume = "200 mL"
depth = "15 cm"
"""


@dataclass(frozen=True)
class RigPage(Page):
    """One rig."""

    template = "rig.html"
    path: str
    sketch: Sketch
    document: str
    remark: str
    withdrawn: bool
    unknowns: tuple[str, ...]
    history: tuple[Event, ...]
    withdrawals: tuple[str, ...] = WITHDRAWALS


@dataclass(frozen=True)
class RigFormPage(Page):
    """The document of a rig, to be written."""

    template = "rig_form.html"
    action: str
    told: str
    document: str
    faults: tuple[AppError, ...] = ()
    revision: int = 0
    reasons: tuple[str, ...] = ()
    sheet: str = field(default_factory=lambda: secrets.token_hex(8))


@stored
def rig(request: Request, notebook: Notebook) -> Page:
    """Show one rig."""
    entry = entry_of(request, notebook, "rig")
    return RigPage(
        title=entry.label,
        path=entry_path(entry.id, "rig"),
        sketch=sketch_of(entry),
        document=as_toml(entry.data),
        remark=str(entry.data["rig"].get("remark") or ""),
        withdrawn=entry.withdrawn,
        unknowns=tuple(unknowns(rig_of(entry.data))),
        history=tuple(events(notebook.history(entry.id), {})),
    )


@page
def new(request: Request, notebook: Notebook) -> Page:
    """Show a document to begin with."""
    return _new_page(STARTER)


def _new_page(document: str, error: AppError | None = None, sheet: str = "") -> RigFormPage:
    return RigFormPage(
        title="New rig",
        action="/new-rig",
        told="A gas line is written part by part, in flow order. Change the example to what stands "
        "on your bench; every kind of part is in docs/documents.md.",
        document=document,
        faults=_each(error),
        sheet=sheet or secrets.token_hex(8),
    )


def _each(error: AppError | None) -> tuple[AppError, ...]:
    if error is None:
        return ()
    return error.faults if isinstance(error, Faults) else (error,)


@page
def copy(request: Request, notebook: Notebook) -> Page:
    """Show the document of an earlier rig under the next label."""
    entry = entry_of(request, notebook, "rig")
    labels = {one.label for one in notebook.entries(kind="rig", withdrawn=True)}
    table = notebook.copy(entry.id, {"rig.label": next_label(entry.label, labels)})
    return _copy_page(entry, as_toml(table))


def _copy_page(
    entry: Entry, document: str, error: AppError | None = None, sheet: str = ""
) -> RigFormPage:
    return RigFormPage(
        title=f"As {entry.label}, but…",
        action=f"{entry_path(entry.id, 'rig')}/copy",
        told="All is as it was then; change what is different now, and its label.",
        document=document,
        faults=_each(error),
        sheet=sheet or secrets.token_hex(8),
    )


@acts
def keep_new(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a new rig."""
    document = sent.get("document", "")
    try:
        return _kept(notebook, _table(document))
    except AppError as error:
        return _new_page(document, error, sent.get("sheet", ""))


@acts
def keep_copy(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a rig made from an earlier one."""
    entry, document = entry_of(request, notebook, "rig"), sent.get("document", "")
    try:
        return _kept(notebook, _table(document))
    except AppError as error:
        return _copy_page(entry, document, error, sent.get("sheet", ""))


def _kept(notebook: Notebook, table: Mapping[str, object]) -> str:
    entry = notebook.add("rig", dict(table), source="page")
    return f"{entry_path(entry.id, 'rig')}?done=kept"


def _table(document: str) -> dict[str, object]:
    """Return the table of one rig document; the notebook checks what is in it."""
    if len(document) > LONGEST:
        raise InputError(
            "this is too long for one rig",
            got=f"{len(document)} letters",
            fix="Give each rig a document of its own.",
        )
    table = read_text(document.replace("\r\n", "\n"))
    rig_of(table)
    return table


@page
def correct(request: Request, notebook: Notebook) -> Page:
    """Show the document of a rig as it stands."""
    entry = entry_of(request, notebook, "rig")
    return _correction(entry, as_toml(entry.data), entry.revision)


def _correction(
    entry: Entry, document: str, revision: int, error: AppError | None = None
) -> RigFormPage:
    return RigFormPage(
        title=f"Correct {entry.label}",
        action=f"{entry_path(entry.id, 'rig')}/correct",
        told=f"{CORRECT} {CHANGED}",
        document=document,
        faults=_each(error),
        revision=revision,
        reasons=REASONS,
    )


@acts
def keep_correction(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a correction with the reason tapped."""
    entry, document = entry_of(request, notebook, "rig"), sent.get("document", "")
    seen = revision_in(sent)
    try:
        table = _table(document)
        reason = reason_in(sent)
        notebook.revise(entry.id, table, reason=reason, on=seen)
    except AppError as error:
        return _correction(entry, document, seen, error)
    return f"{entry_path(entry.id, 'rig')}?done=corrected"


def as_file(request: Request) -> Response:
    """Return the drawing of a rig as a file to keep."""
    desk: Desk = desk_of(request)
    if desk.file is None:
        raise NotFound("there is no notebook yet", fix="The first page makes one.")
    with Notebook.open(desk.file, read_only=True) as notebook:
        entry = entry_of(request, notebook, "rig")
    return Response(
        drawing_file(rig_of(entry.data)),
        media_type="image/svg+xml",
        headers={"content-disposition": 'attachment; filename="gas-line.svg"'},
    )


def look(request: Request) -> Response:
    """Return the style sheet of drawings."""
    return Response(style(), media_type="text/css", headers={"cache-control": "no-cache"})


ROUTES = (
    Route("/drawing.css", look),
    Route("/new-rig", new, methods=["GET"]),
    Route("/new-rig", keep_new, methods=["POST"]),
    Route("/rig/{id}", rig, methods=["GET"]),
    Route("/rig/{id}/drawing.svg", as_file, methods=["GET"]),
    Route("/rig/{id}/correct", correct, methods=["GET"]),
    Route("/rig/{id}/correct", keep_correction, methods=["POST"]),
    Route("/rig/{id}/withdraw", withdrawal("rig"), methods=["POST"]),
    Route("/rig/{id}/copy", copy, methods=["GET"]),
    Route("/rig/{id}/copy", keep_copy, methods=["POST"]),
)
