"""A reaction of the notebook: its plan, what was typed, its history; new, copy, correct."""

from __future__ import annotations

import secrets
from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.reaction import plan_of_entry, reaction_plan
from ozonewright.errors import AppError
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.reaction_page import PlanView, plan_view
from ozonewright.show.sheet.figures import plan_figure
from ozonewright.web.figure import Drawn, drawn
from ozonewright.web.form import Form, fields_of, with_faults
from ozonewright.web.history import Event, Reading, events, readings
from ozonewright.web.pages.common import acts, page, stored
from ozonewright.web.pages.kept import (
    WITHDRAWALS,
    EntryFormPage,
    correction,
    entry_of,
    reason_in,
    revision_in,
    withdrawal,
)
from ozonewright.web.pages.new import LABELS_COMPARED, next_label
from ozonewright.web.pages.reaction import reaction_path
from ozonewright.web.reaction_form import (
    MOST_SUBSTRATES,
    reaction_form,
    reaction_groups,
    reaction_table,
    substrates_in,
    typed_reaction,
)
from ozonewright.web.view import Page

LABEL = "reaction.label"
NEEDED = "Structure and amount are enough to begin; without output and uptake there is no on-time."


@dataclass(frozen=True)
class KeptReactionPage(Page):
    """One reaction of the notebook."""

    template = "reaction_kept.html"
    label: str
    path: str
    withdrawn: bool
    plan: PlanView | None
    marks: Drawn | None
    trouble: tuple[str, ...]
    """Why there is no plan."""
    readings: tuple[Reading, ...]
    history: tuple[Event, ...]
    withdrawals: tuple[str, ...] = WITHDRAWALS


@stored
def show(request: Request, notebook: Notebook) -> Page:
    """Show one reaction and its plan."""
    entry = entry_of(request, notebook, "reaction")
    history = notebook.history(entry.id)
    words = {one.place: one.label for one in fields_of(reaction_groups(entry.data))}
    plan, trouble = _plan(notebook, entry)
    return KeptReactionPage(
        title=entry.label,
        label=entry.label,
        path=reaction_path(entry.id),
        withdrawn=entry.withdrawn,
        plan=plan_view(plan) if plan else None,
        marks=drawn(plan_figure(plan)) if plan else None,
        trouble=trouble,
        readings=tuple(readings(history, words)),
        history=tuple(events(history, words)),
    )


def _plan(notebook: Notebook, entry: Entry) -> tuple[ReactionPlan | None, tuple[str, ...]]:
    try:
        return plan_of_entry(notebook, entry), ()
    except AppError as error:
        return None, tuple(str(error).splitlines())


@page
def new(request: Request, notebook: Notebook) -> Page:
    """Show the empty form, or one filled from the address."""
    sent = {name: text for name, text in request.query_params.items() if text.strip()}
    groups = reaction_groups(None, substrates_in(sent))
    return _new_page(typed_reaction(groups, sent))


def _grows(can: bool) -> str:
    return "substrate" if can else ""


def _new_page(form: Form, sheet: str = "") -> EntryFormPage:
    return EntryFormPage(
        title="New reaction",
        form=form,
        kind="reaction",
        action="/reaction/new",
        told=f"Type each quantity with its unit. {NEEDED}",
        sheet=sheet or secrets.token_hex(8),
        focus=LABEL,
        grows=_grows(substrates_in(form.values) < MOST_SUBSTRATES),
    )


@page
def copy(request: Request, notebook: Notebook) -> Page:
    """Show the form as in an earlier reaction."""
    return _copy_page(notebook, entry_of(request, notebook, "reaction"))


def _copy_page(notebook: Notebook, model: Entry, form: Form | None = None) -> EntryFormPage:
    if form is None:
        last = notebook.entries(kind="reaction", last=LABELS_COMPARED, withdrawn=True)
        label = next_label(model.label, {entry.label for entry in last})
        form = reaction_form(notebook.copy(model.id, {"reaction.label": label}))
    return EntryFormPage(
        title=f"As {model.label}, but…",
        form=form,
        kind="reaction",
        action=f"{reaction_path(model.id)}/copy",
        told="All is as it was then, except its name and remark.",
        focus=LABEL,
        grows=_grows(isinstance(model.data.get("substrate"), list)),
    )


@acts
def keep_new(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a new reaction, or show the form again with what must be mended."""
    return _keep(notebook, sent, None)


@acts
def keep_copy(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a reaction made from an earlier one."""
    return _keep(notebook, sent, entry_of(request, notebook, "reaction"))


def _keep(notebook: Notebook, sent: dict[str, str], model: Entry | None) -> Page | str:
    base = notebook.copy(model.id, {}) if model else None
    more = "more" in sent
    form = typed_reaction(reaction_groups(base, substrates_in(sent) + more), sent)
    if not more:
        try:
            table = reaction_table(form, base)
            reaction_plan(table, notebook)
            entry = notebook.add("reaction", table, source="page")
            return f"{reaction_path(entry.id)}?done=kept"
        except AppError as error:
            form = with_faults(form, error)
    if model is None:
        return _new_page(form, sent.get("sheet", ""))
    return _copy_page(notebook, model, form)


@page
def correct(request: Request, notebook: Notebook) -> Page:
    """Show the form of a reaction as it stands."""
    entry = entry_of(request, notebook, "reaction")
    return _correction(entry, reaction_form(entry.data), entry.revision)


def _correction(entry: Entry, form: Form, revision: int) -> EntryFormPage:
    grows = _grows(isinstance(entry.data.get("substrate"), list))
    return correction(entry, form, revision, LABEL, grows)


@acts
def keep_correction(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a correction with the reason tapped."""
    entry = entry_of(request, notebook, "reaction")
    more = "more" in sent
    seen = revision_in(sent)
    form = typed_reaction(reaction_groups(entry.data, substrates_in(sent) + more), sent)
    if more:
        return _correction(entry, form, seen)
    try:
        table = reaction_table(form, entry.data)
        reason = reason_in(sent)
        reaction_plan(table, notebook)
        notebook.revise(entry.id, table, reason=reason, on=seen)
    except AppError as error:
        return _correction(entry, with_faults(form, error), seen)
    return f"{reaction_path(entry.id)}?done=corrected"


ROUTES = (
    Route("/reaction/new", new, methods=["GET"]),
    Route("/reaction/new", keep_new, methods=["POST"]),
    Route("/reaction/{id}", show, methods=["GET"]),
    Route("/reaction/{id}/copy", copy, methods=["GET"]),
    Route("/reaction/{id}/copy", keep_copy, methods=["POST"]),
    Route("/reaction/{id}/correct", correct, methods=["GET"]),
    Route("/reaction/{id}/correct", keep_correction, methods=["POST"]),
    Route("/reaction/{id}/withdraw", withdrawal("reaction"), methods=["POST"]),
)
