"""One run: its answer, what was typed, its history; correct, withdraw, undo."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.notebook import keep_answer
from ozonewright.errors import AppError, InputError
from ozonewright.notebook import REASONS, Entry, Notebook
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
from ozonewright.web.form import Form, differences, fields_of, leaves, shown, with_faults
from ozonewright.web.pages.common import PAGED, acts, entry_path, page, setting_path, stored
from ozonewright.web.pages.new import RunFormPage
from ozonewright.web.run_form import (
    MOST_BOTTLES,
    bottles_in,
    form_of,
    run_groups,
    table_of,
    titre_field,
    typed_form,
)
from ozonewright.web.view import Page, desk_of, moment

WITHDRAWALS = ("spoiled at the bench", "kept twice", "belongs elsewhere", "other")
DEEDS = {
    "add": "Entered",
    "revise": "Corrected",
    "withdraw": "Withdrawn",
    "undo": "Undone",
}


@dataclass(frozen=True, slots=True)
class Earlier:
    """What stood at a place before."""

    text: str
    why: str


@dataclass(frozen=True, slots=True)
class Reading:
    """One place of the document as typed, with what stood there before."""

    label: str
    text: str
    before: tuple[Earlier, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """One place that a revision changed."""

    label: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Event:
    """One revision."""

    what: str
    when: str
    by: str
    changes: tuple[Change, ...] = ()


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
    entry = _run(notebook, request)
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


def _run(notebook: Notebook, request: Request) -> Entry:
    entry = notebook.get(request.path_params["id"])
    if entry.kind != "run":
        raise InputError(
            "this entry is no run and has no page yet",
            got=f"{entry.label} ({entry.kind})",
            fix="Show it with: ozonewright notebook show.",
        )
    return entry


def labels(bottles: int) -> dict[str, str]:
    """Return the words of every place of a run."""
    words = {one.place: one.label for one in fields_of(run_groups(bottles))}
    return words | {"titration.titres": titre_field(1).label}


def readings(history: Sequence[Entry], words: Mapping[str, str]) -> Iterator[Reading]:
    """Yield what is typed now, in the order of the form, with what stood there before."""
    now = dict(leaves(history[-1].data))
    before: dict[str, list[Earlier]] = {}
    for older, newer in pairwise(history):
        why = f"{newer.reason or newer.deed}, {moment(newer.when)}"
        for place, old, _ in differences(older.data, newer.data):
            if old:
                before.setdefault(place, []).insert(0, Earlier(old, why))
    order = {place: number for number, place in enumerate(words)}
    for place in sorted({**now, **before}, key=lambda place: order.get(place, len(order))):
        yield Reading(words.get(place, place), now.get(place, ""), tuple(before.get(place, ())))


def events(history: Sequence[Entry], words: Mapping[str, str]) -> Iterator[Event]:
    """Yield each revision, the last first."""
    for number in reversed(range(len(history))):
        entry = history[number]
        changes = differences(history[number - 1].data, entry.data) if number else ()
        reason = f": {entry.reason}" if entry.reason and entry.deed != "undo" else ""
        yield Event(
            f"{DEEDS[entry.deed]}{reason}",
            moment(entry.when),
            entry.by or "",
            tuple(Change(words.get(place, place), old, new) for place, old, new in changes),
        )


def _correction(entry: Entry, form: Form, revision: int) -> RunFormPage:
    stored_text = shown(entry.data, fields_of(form.groups))
    return RunFormPage(
        title=f"Correct {entry.label}",
        form=form,
        action=f"{entry_path(entry.id)}/correct",
        told="Change what is wrong. What stands there now is kept and stays readable.",
        was={
            place: f"now {text}"
            for place, text in stored_text.items()
            if form.values.get(place, "") != text
        },
        revision=revision,
        reasons=REASONS,
        can_grow=bottles_in({}, form.values) < MOST_BOTTLES,
    )


@page
def correct(request: Request, notebook: Notebook) -> Page:
    """Show the form of a run as it stands."""
    entry = _run(notebook, request)
    return _correction(entry, form_of(entry.data), entry.revision)


@acts
def keep_correction(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a correction with the reason tapped."""
    entry = _run(notebook, request)
    more = "more" in sent
    seen = int(sent["revision"]) if sent.get("revision", "").isdecimal() else 0
    groups = run_groups(max(bottles_in(entry.data), bottles_in({}, sent)) + more)
    form = typed_form(groups, sent)
    if more:
        return _correction(entry, form, seen)
    try:
        table = table_of(form, entry.data)
        reason = next((one for one in REASONS if one == sent.get("reason")), None)
        if reason is None:
            raise InputError("why was it wrong?", where="reason", fix="Tap one of the reasons.")
        with notebook.atomic():
            keep_answer(notebook, notebook.revise(entry.id, table, reason=reason, on=seen))
    except AppError as error:
        return _correction(entry, with_faults(form, error), seen)
    return f"{entry_path(entry.id)}?done=corrected"


@acts
def withdraw(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Strike a run out."""
    entry = _run(notebook, request)
    notebook.withdraw(entry.id, reason=sent.get("reason", ""))
    return f"{entry_path(entry.id)}?done=withdrawn"


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
    Route("/run/{id}/withdraw", withdraw, methods=["POST"]),
    Route("/undo", undo, methods=["POST"]),
)
