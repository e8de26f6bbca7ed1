"""A reaction of the notebook: its plan, what was typed, its history; new, copy, correct."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.reaction import plan_of_entry, reaction_plan
from ozonewright.errors import AppError, InputError
from ozonewright.notebook import REASONS, Entry, Notebook
from ozonewright.show.reaction_page import PlanView, plan_view
from ozonewright.web.form import Form, fields_of, shown, with_faults
from ozonewright.web.pages.common import acts, page, stored
from ozonewright.web.pages.entry import WITHDRAWALS, Event, Reading, events, readings
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

NEEDED = "Structure and amount are enough to begin; without output and uptake there is no on-time."


@dataclass(frozen=True)
class KeptReactionPage(Page):
    """One reaction of the notebook."""

    template = "reaction_kept.html"
    label: str
    path: str
    withdrawn: bool
    plan: PlanView | None
    trouble: tuple[str, ...]
    """Why there is no plan."""
    readings: tuple[Reading, ...]
    history: tuple[Event, ...]
    withdrawals: tuple[str, ...] = WITHDRAWALS


@dataclass(frozen=True)
class ReactionFormPage(Page):
    """The form of a reaction, new or corrected."""

    template = "reaction_form.html"
    form: Form
    action: str
    told: str = ""
    sheet: str = field(default_factory=lambda: secrets.token_hex(8))
    """Tells one opened form from another, so that a second tap keeps no second reaction."""
    was: Mapping[str, str] = field(default_factory=dict)
    revision: int = 0
    reasons: tuple[str, ...] = ()
    can_grow: bool = False


@stored
def show(request: Request, notebook: Notebook) -> Page:
    """Show one reaction and its plan."""
    entry = _reaction(notebook, request)
    history = notebook.history(entry.id)
    words = {one.place: one.label for one in fields_of(reaction_groups(entry.data))}
    plan, trouble = _plan(notebook, entry)
    return KeptReactionPage(
        title=entry.label,
        label=entry.label,
        path=reaction_path(entry.id),
        withdrawn=entry.withdrawn,
        plan=plan,
        trouble=trouble,
        readings=tuple(readings(history, words)),
        history=tuple(events(history, words)),
    )


def _plan(notebook: Notebook, entry: Entry) -> tuple[PlanView | None, tuple[str, ...]]:
    try:
        return plan_view(plan_of_entry(notebook, entry)), ()
    except AppError as error:
        return None, tuple(str(error).splitlines())


def _reaction(notebook: Notebook, request: Request) -> Entry:
    entry = notebook.get(request.path_params["id"])
    if entry.kind != "reaction":
        raise InputError(
            "this entry is no reaction",
            got=f"{entry.label} ({entry.kind})",
            fix="Find it by the search in the head of the page.",
        )
    return entry


@page
def new(request: Request, notebook: Notebook) -> Page:
    """Show the empty form, or one filled from the address."""
    sent = {name: text for name, text in request.query_params.items() if text.strip()}
    groups = reaction_groups(None, substrates_in(sent))
    return _new_page(typed_reaction(groups, sent))


def _new_page(form: Form, sheet: str = "") -> ReactionFormPage:
    return ReactionFormPage(
        title="New reaction",
        form=form,
        action="/reaction/new",
        told=f"Type each quantity with its unit. {NEEDED}",
        sheet=sheet or secrets.token_hex(8),
        can_grow=substrates_in(form.values) < MOST_SUBSTRATES,
    )


@page
def copy(request: Request, notebook: Notebook) -> Page:
    """Show the form as in an earlier reaction."""
    return _copy_page(notebook, _reaction(notebook, request))


def _copy_page(notebook: Notebook, model: Entry, form: Form | None = None) -> ReactionFormPage:
    if form is None:
        last = notebook.entries(kind="reaction", last=LABELS_COMPARED, withdrawn=True)
        label = next_label(model.label, {entry.label for entry in last})
        form = reaction_form(notebook.copy(model.id, {"reaction.label": label}))
    return ReactionFormPage(
        title=f"As {model.label}, but…",
        form=form,
        action=f"{reaction_path(model.id)}/copy",
        told="All is as it was then, except its name and remark.",
        can_grow=isinstance(model.data.get("substrate"), list),
    )


@acts
def keep_new(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a new reaction, or show the form again with what must be mended."""
    return _keep(notebook, sent, None)


@acts
def keep_copy(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a reaction made from an earlier one."""
    return _keep(notebook, sent, _reaction(notebook, request))


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
    entry = _reaction(notebook, request)
    return _correction(entry, reaction_form(entry.data), entry.revision)


def _correction(entry: Entry, form: Form, revision: int) -> ReactionFormPage:
    stored_text = shown(entry.data, fields_of(form.groups))
    return ReactionFormPage(
        title=f"Correct {entry.label}",
        form=form,
        action=f"{reaction_path(entry.id)}/correct",
        told="Change what is wrong. What stands there now is kept and stays readable.",
        was={
            place: f"now {text}"
            for place, text in stored_text.items()
            if form.values.get(place, "") != text
        },
        revision=revision,
        reasons=REASONS,
        can_grow=isinstance(entry.data.get("substrate"), list),
    )


@acts
def keep_correction(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a correction with the reason tapped."""
    entry = _reaction(notebook, request)
    more = "more" in sent
    seen = int(sent["revision"]) if sent.get("revision", "").isdecimal() else 0
    form = typed_reaction(reaction_groups(entry.data, substrates_in(sent) + more), sent)
    if more:
        return _correction(entry, form, seen)
    try:
        table = reaction_table(form, entry.data)
        reason = next((one for one in REASONS if one == sent.get("reason")), None)
        if reason is None:
            raise InputError("why was it wrong?", where="reason", fix="Tap one of the reasons.")
        reaction_plan(table, notebook)
        notebook.revise(entry.id, table, reason=reason, on=seen)
    except AppError as error:
        return _correction(entry, with_faults(form, error), seen)
    return f"{reaction_path(entry.id)}?done=corrected"


@acts
def withdraw(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Strike a reaction out."""
    entry = _reaction(notebook, request)
    notebook.withdraw(entry.id, reason=sent.get("reason", ""))
    return f"{reaction_path(entry.id)}?done=withdrawn"


ROUTES = (
    Route("/reaction/new", new, methods=["GET"]),
    Route("/reaction/new", keep_new, methods=["POST"]),
    Route("/reaction/{id}", show, methods=["GET"]),
    Route("/reaction/{id}/copy", copy, methods=["GET"]),
    Route("/reaction/{id}/copy", keep_copy, methods=["POST"]),
    Route("/reaction/{id}/correct", correct, methods=["GET"]),
    Route("/reaction/{id}/correct", keep_correction, methods=["POST"]),
    Route("/reaction/{id}/withdraw", withdraw, methods=["POST"]),
)
