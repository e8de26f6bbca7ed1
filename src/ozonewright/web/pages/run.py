"""One run: its answer, what was typed, its history; correct, withdraw, undo."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.notebook import keep_answer
from ozonewright.errors import AppError
from ozonewright.notebook import Entry, Notebook
from ozonewright.show.pages import (
    Answer,
    BudgetLine,
    Remark,
    SourceLine,
    budget_lines,
    output_answer,
    remarks,
    sentences,
    source_lines,
)
from ozonewright.web.answers import answers, setting_of
from ozonewright.web.form import Form, fields_of, typed, with_faults
from ozonewright.web.history import Event, Reading, events, readings
from ozonewright.web.pages.common import PAGED, acts, entry_path, page, setting_path, stored
from ozonewright.web.pages.kept import (
    WITHDRAWALS,
    EntryFormPage,
    correction,
    entry_of,
    reason_in,
    revision_in,
    withdrawal,
)
from ozonewright.web.run_form import (
    MOST_BOTTLES,
    bottles_in,
    form_of,
    run_groups,
    table_of,
    titre_field,
)
from ozonewright.web.view import Page, desk_of


@dataclass(frozen=True)
class RunPage(Page):
    """One run."""

    template = "run.html"
    label: str
    path: str
    setting: str
    setting_path: str
    withdrawn: bool
    answer: Answer
    next: tuple[str, ...]
    working: tuple[str, ...]
    budget: tuple[BudgetLine, ...]
    remarks: tuple[Remark, ...]
    unknowns: tuple[str, ...]
    sources: tuple[SourceLine, ...]
    readings: tuple[Reading, ...]
    history: tuple[Event, ...]
    withdrawals: tuple[str, ...] = WITHDRAWALS


@stored
def run(request: Request, notebook: Notebook) -> Page:
    """Show one run."""
    entry = entry_of(request, notebook, "run")
    history = notebook.history(entry.id)
    result = answers(desk_of(request), notebook, [entry])[0]
    words = labels(bottles_in(entry.data))
    setting = setting_of(entry)
    return RunPage(
        title=entry.label,
        label=entry.label,
        path=entry_path(entry.id),
        setting=setting,
        setting_path=setting_path(setting) if setting else "",
        withdrawn=entry.withdrawn,
        answer=output_answer(result),
        next=() if entry.withdrawn else sentences(result.next),
        working=sentences(result.working),
        budget=budget_lines(result.budget),
        remarks=remarks(result.notes),
        unknowns=tuple(words.get(place, place) for place in result.unknowns),
        sources=source_lines(result),
        readings=tuple(readings(history, words)),
        history=tuple(events(history, words)),
    )


def labels(bottles: int) -> dict[str, str]:
    """Return the words of every place of a run."""
    words = {one.place: one.label for one in fields_of(run_groups(bottles))}
    return words | {"titration.titres": titre_field(1).label}


def _correction(entry: Entry, form: Form, revision: int) -> EntryFormPage:
    can_grow = bottles_in({}, form.values) < MOST_BOTTLES
    return correction(entry, form, revision, grows="bottle" if can_grow else "")


@page
def correct(request: Request, notebook: Notebook) -> Page:
    """Show the form of a run as it stands."""
    entry = entry_of(request, notebook, "run")
    return _correction(entry, form_of(entry.data), entry.revision)


@acts
def keep_correction(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a correction with the reason tapped."""
    entry = entry_of(request, notebook, "run")
    more = "more" in sent
    seen = revision_in(sent)
    groups = run_groups(max(bottles_in(entry.data), bottles_in({}, sent)) + more)
    form = typed(groups, sent)
    if more:
        return _correction(entry, form, seen)
    try:
        table = table_of(form, entry.data)
        reason = reason_in(sent)
        with notebook.atomic():
            keep_answer(notebook, notebook.revise(entry.id, table, reason=reason, on=seen))
    except AppError as error:
        return _correction(entry, with_faults(form, error), seen)
    return f"{entry_path(entry.id)}?done=corrected"


@acts
def undo(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Take back the last act."""
    entry = notebook.undo()
    if entry is None:
        return "/?done=nothing"
    if entry.kind not in PAGED:
        return "/?done=undone"
    return f"{entry_path(entry.id, entry.kind)}?done=undone"


ROUTES = (
    Route("/run/{id}", run, methods=["GET"]),
    Route("/run/{id}/correct", correct, methods=["GET"]),
    Route("/run/{id}/correct", keep_correction, methods=["POST"]),
    Route("/run/{id}/withdraw", withdrawal("run"), methods=["POST"]),
    Route("/undo", undo, methods=["POST"]),
)
