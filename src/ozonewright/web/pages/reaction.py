"""A reaction asked without keeping it, and the reactions that the notebook keeps."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.reaction import reaction_plan
from ozonewright.errors import AppError
from ozonewright.notebook import Notebook
from ozonewright.show.reaction_page import PlanView, plan_view
from ozonewright.web.form import Form, fields_of, with_faults
from ozonewright.web.pages.common import entry_path, shell
from ozonewright.web.reaction_form import (
    MOST_SUBSTRATES,
    reaction_groups,
    reaction_table,
    substrates_in,
    typed_reaction,
)
from ozonewright.web.view import Page, desk_of, html, respond

LAST = 40


@dataclass(frozen=True, slots=True)
class ReactionRow:
    """One reaction that the notebook keeps."""

    label: str
    path: str
    substrate: str
    withdrawn: bool


@dataclass(frozen=True)
class ReactionPage(Page):
    """The form, the plan once it can be told, and what is kept already."""

    template = "reaction.html"
    form: Form
    plan: PlanView | None = None
    can_grow: bool = True
    kept: tuple[ReactionRow, ...] = ()


def reaction_path(id: str) -> str:
    """Return the address of a reaction's page."""
    return entry_path(id, "reaction")


def reaction(request: Request) -> Response:
    """Show the form; with a reaction in the address, its plan."""
    file = desk_of(request).file
    if file is None:
        page, status = _page(request, None)
        return respond(html(shell(request, None), page), status)
    with Notebook.open(file, read_only=True) as notebook:
        page, status = _page(request, notebook)
        return respond(html(shell(request, notebook), page), status)


def _page(request: Request, notebook: Notebook | None) -> tuple[ReactionPage, int]:
    sent = {name: text.strip() for name, text in request.query_params.items()}
    more = "more" in sent
    count = min(substrates_in(sent) + more, MOST_SUBSTRATES)
    groups = reaction_groups(None, count)
    form = typed_reaction(groups, sent)
    page = partial(ReactionPage, "Reaction", can_grow=count < MOST_SUBSTRATES, kept=_kept(notebook))
    if more or not any(sent.get(one.place) for one in fields_of(groups)):
        return page(form=form), 200
    try:
        found = reaction_plan(reaction_table(form), notebook)
    except AppError as error:
        return page(form=with_faults(form, error)), 422
    return page(form=form, plan=plan_view(found)), 200


def _kept(notebook: Notebook | None) -> tuple[ReactionRow, ...]:
    if notebook is None:
        return ()
    entries = notebook.entries(kind="reaction", last=LAST, withdrawn=True)
    return tuple(
        ReactionRow(
            entry.label, reaction_path(entry.id), _first_smiles(entry.data), entry.withdrawn
        )
        for entry in reversed(entries)
    )


def _first_smiles(data: dict[str, object]) -> str:
    written = data.get("substrate")
    first = written[0] if isinstance(written, list) and written else written
    return str(first.get("smiles", "")) if isinstance(first, dict) else ""


ROUTES = (Route("/reaction", reaction),)
