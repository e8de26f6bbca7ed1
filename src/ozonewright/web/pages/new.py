"""A new run, and a run as last time, but…"""

from __future__ import annotations

import re
import secrets
from collections.abc import Collection
from datetime import datetime

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.clock import now
from ozonewright.bench.counted import counted_run
from ozonewright.bench.notebook import keep_answer
from ozonewright.errors import AppError
from ozonewright.notebook import Entry, Notebook
from ozonewright.web.form import Form, fields_of, shown, typed, with_faults
from ozonewright.web.pages.common import acts, entry_path, page
from ozonewright.web.pages.kept import EntryFormPage
from ozonewright.web.run_form import (
    BOTTLES,
    MOST_BOTTLES,
    TIME,
    bottles_in,
    empty_form,
    form_of,
    run_groups,
    table_of,
)
from ozonewright.web.view import Page

OFFERED_FROM = 12
"""Runs looked back for values to offer again."""
OFFERS = 6
LABELS_COMPARED = 500
_NUMBER = re.compile(r"(\d+)$")


def _grows(bottles: int) -> str:
    return "bottle" if bottles < MOST_BOTTLES else ""


def _new_page(form: Form, bottles: int, sheet: str = "") -> EntryFormPage:
    return EntryFormPage(
        title="New run",
        form=form,
        kind="run",
        action="/new",
        told="Type each quantity with its unit, as you would write it down. A time and a titre are "
        "enough; what you add sharpens the answer.",
        focus="run.label",
        grows=_grows(bottles),
        sheet=sheet or secrets.token_hex(8),
    )


def new(request: Request, notebook: Notebook) -> Page:
    """Show the empty form, or what was counted at the bench; values typed lately are offered."""
    if of := request.query_params.get("of", "").strip():
        table = counted_run(notebook, of, now())
        return _new_page(form_of(table, offers(notebook)), max(BOTTLES, bottles_in(table)))
    return _new_page(empty_form(offers=offers(notebook)), BOTTLES)


def keep_new(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a new run."""
    return _keep(notebook, sent, None)


def copy(request: Request, notebook: Notebook) -> Page:
    """Show the form as in an earlier run, its readings empty."""
    return _copy_page(notebook, notebook.get(request.path_params["id"]))


def keep_copy(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep a run made from an earlier one."""
    return _keep(notebook, sent, notebook.get(request.path_params["id"]))


def _keep(notebook: Notebook, sent: dict[str, str], model: Entry | None) -> Page | str:
    more = "more" in sent
    bottles = bottles_in({}, sent) + more
    form = typed(run_groups(bottles), sent)
    if not more:
        try:
            base = notebook.copy(model.id, {}) if model else None
            table = table_of(form, base)
            with notebook.atomic():
                entry = notebook.add("run", table, source="page")
                keep_answer(notebook, entry)
            return f"{entry_path(entry.id)}?done=kept"
        except AppError as error:
            form = with_faults(form, error)
    form = Form(form.groups, form.values, form.faults, form.elsewhere, offers(notebook))
    if model is None:
        return _new_page(form, bottles, sheet=sent.get("sheet", ""))
    return _copy_page(notebook, model, form)


def _copy_page(notebook: Notebook, model: Entry, form: Form | None = None) -> EntryFormPage:
    last = notebook.entries(kind="run", last=LABELS_COMPARED, withdrawn=True)
    labels = {entry.label for entry in last}
    label = next_label(model.label, labels)
    now = datetime.now().replace(second=0, microsecond=0)
    if form is None:
        table = notebook.copy(model.id, {"run.label": label, "run.started": now})
        form = form_of(table, offers(notebook))
        bottles = max(bottles_in(model.data), bottles_in(table))
        form = Form(run_groups(bottles), form.values, offers=form.offers)
    before = shown(model.data, fields_of(form.groups))
    was = {
        place: f"last time {text}"
        for place, text in before.items()
        if not form.values.get(place) and place != "run.remark"
    }
    return EntryFormPage(
        title=f"As {model.label}, but…",
        form=form,
        kind="run",
        action=f"{entry_path(model.id)}/copy",
        told="All is as it was then, except what has to be read anew.",
        was=was,
        focus=TIME.place,
        grows=_grows(bottles_in({}, form.values)),
    )


def next_label(label: str, known: Collection[str]) -> str:
    """Return the label that follows: ``C4`` then ``C5``, or ``test 2`` after ``test``."""
    found = _NUMBER.search(label)
    stem, number = (label[: found.start()], int(found[1])) if found else (f"{label} ", 1)
    while (following := f"{stem}{number + 1}") in known:
        number += 1
    return following


def offers(notebook: Notebook) -> dict[str, tuple[str, ...]]:
    """Return the values typed lately at each place, the last first."""
    fields = [one for one in fields_of(run_groups()) if one.kind in ("text", "repeats")]
    out: dict[str, list[str]] = {}
    for entry in reversed(notebook.entries(kind="run", last=OFFERED_FROM)):
        for place, text in shown(entry.data, fields).items():
            if place != "run.label" and text not in out.setdefault(place, []):
                out[place].append(text)
    return {place: tuple(texts[:OFFERS]) for place, texts in out.items()}


ROUTES = (
    Route("/new", page(new), methods=["GET"]),
    Route("/new", acts(keep_new), methods=["POST"]),
    Route("/run/{id}/copy", page(copy), methods=["GET"]),
    Route("/run/{id}/copy", acts(keep_copy), methods=["POST"]),
)
