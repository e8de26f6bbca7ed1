"""The gas line: what flows, where the pressure goes, what another value would do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.rig import rig_of
from ozonewright.documents.load import read_text
from ozonewright.errors import AppError, Faults
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.gas_line import GasLine
from ozonewright.questions.gas_line.gaps import of_part
from ozonewright.records.rig import Part
from ozonewright.show.gas_line import change_cells, loss_line
from ozonewright.show.gas_line_page import (
    CHANGE_HEADS,
    PART_HEADS,
    answer_parts,
    part_cells,
)
from ozonewright.show.pages import Answer, Remark, SourceLine, remarks, source_lines
from ozonewright.show.part_words import field_words
from ozonewright.web.form import Field, Form, Group, filled, shown, with_faults
from ozonewright.web.pages.common import asks, entry_path
from ozonewright.web.pages.rig import STARTER
from ozonewright.web.pages.sketch import Sketch, line_of, sketch_of_line
from ozonewright.web.view import Page


@dataclass(frozen=True, slots=True)
class Choice:
    """A rig of the notebook."""

    label: str
    path: str
    chosen: bool


@dataclass(frozen=True)
class GasLinePage(Page):
    """One gas line, answered, and its values to be moved."""

    template = "gas_line.html"
    choices: tuple[Choice, ...] = ()
    label: str = ""
    path: str = ""
    document: str = ""
    answer: Answer | None = None
    moved: str = ""
    loss: str = ""
    sketch: Sketch | None = None
    part_heads: tuple[str, ...] = PART_HEADS
    parts: tuple[tuple[str, ...], ...] = ()
    change_heads: tuple[str, ...] = CHANGE_HEADS
    changes: tuple[tuple[str, ...], ...] = ()
    costs: tuple[tuple[str, ...], ...] = ()
    remarks: tuple[Remark, ...] = ()
    unknowns: tuple[str, ...] = ()
    sources: tuple[SourceLine, ...] = ()
    form: Form | None = None
    faults: tuple[AppError, ...] = ()


@asks
def gas_line(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the line of a rig; values in the address stand in place of its own."""
    return _alone(request) if notebook is None else _kept(request, notebook)


def _alone(request: Request) -> tuple[GasLinePage, int]:
    """Answer a document from the address, for a person without a notebook."""
    document = request.query_params.get("document", "")
    if not document.strip():
        return GasLinePage("Gas line", document=STARTER), 200
    try:
        table = read_text(document.replace("\r\n", "\n"))
        return _answered(table, None, {}, document=document), 200
    except AppError as error:
        faults = error.faults if isinstance(error, Faults) else (error,)
        return GasLinePage("Gas line", document=document, faults=faults), 422


def _kept(request: Request, notebook: Notebook) -> tuple[GasLinePage, int]:
    rigs = notebook.entries(kind="rig")[::-1]
    if not rigs:
        return GasLinePage("Gas line"), 200
    asked = request.query_params.get("rig", "")
    entry = next((one for one in rigs if asked in (one.label, one.id)), None)
    if entry is None:
        entry = notebook.get(asked) if asked else rigs[0]
    choices = tuple(Choice(one.label, f"/gas-line?rig={one.id}", one is entry) for one in rigs)
    sent = {name: text.strip() for name, text in request.query_params.items() if "[" in name}
    try:
        return _answered(entry.data, entry, sent, choices), 200
    except AppError as error:
        form = with_faults(_form(entry.data, sent), error)
        return GasLinePage("Gas line", choices, entry.label, entry.id, form=form), 422


def _answered(
    table: Mapping[str, Any],
    entry: Entry | None,
    sent: Mapping[str, str],
    choices: tuple[Choice, ...] = (),
    document: str = "",
) -> GasLinePage:
    form = _form(table, sent)
    fields = tuple(one for group in form.groups for one in group.fields)
    asked = filled(table, fields, form.values)
    found = line_of(asked)
    return GasLinePage(
        title="Gas line",
        choices=choices,
        label=entry.label if entry else str(table.get("rig", {}).get("label") or ""),
        path=entry.id if entry else "",
        document=document,
        answer=answer_parts(found),
        moved=_moved(table, asked, form, found),
        loss=loss_line(found),
        sketch=sketch_of_line(asked, found, entry_path(entry.id, "rig") if entry else ""),
        parts=tuple(part_cells(row) for row in found.parts),
        changes=tuple(change_cells(found, row) for row in found.what_if),
        costs=tuple(change_cells(found, row) for row in found.sensitivities),
        remarks=remarks(found.notes),
        unknowns=found.unknowns,
        sources=source_lines(found),
        form=form if entry else None,
    )


def _moved(table: Mapping[str, Any], asked: Mapping[str, Any], form: Form, found: GasLine) -> str:
    """Return what was changed, and what flows as the rig stands."""
    fields = [one for group in form.groups for one in group.fields]
    before, now = shown(table, fields), shown(asked, fields)
    names = {one.place: f"{group.title}, {one.label}" for group in form.groups
             for one in group.fields}  # fmt: skip
    changes = [
        f"{names[place]} {now.get(place, 'left out')} instead of {before.get(place, 'not stated')}"
        for place in names
        if now.get(place) != before.get(place)
    ]
    if not changes:
        return ""
    stands = answer_parts(line_of(table))
    return f"With {'; '.join(changes)}. As the rig stands: {stands.number} {stands.unit}."


def _form(table: Mapping[str, Any], sent: Mapping[str, str]) -> Form:
    """Return a field for every quantity of every part, as typed or as moved."""
    groups = tuple(
        Group(part.name, tuple(_fields(part)))
        for part in rig_of(table).parts
        if part.quantities or any(of_part(part))
    )
    fields = [one for group in groups for one in group.fields]
    return Form(groups, {**shown(table, fields), **sent})


def _fields(part: Part) -> Iterator[Field]:
    missing = [place.rpartition(".")[2] for place in of_part(part)]
    for name in dict.fromkeys((*part.quantities, *missing)):
        if name in NOT_TEXT:
            continue
        yield Field(f"{part.place}.{name}", field_words(name))


NOT_TEXT = ("density",)
"""A gap that a liquid's name would fill as well: it is told, not asked for here."""

ROUTES = (Route("/gas-line", gas_line),)
