"""A reaction asked without keeping it, and the reactions that the notebook keeps."""

from __future__ import annotations

from dataclasses import dataclass, replace

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.reaction import reaction_plan
from ozonewright.notebook import Notebook
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.reaction_page import PlanView, plan_view
from ozonewright.show.sheet.figures import plan_figure
from ozonewright.web.figure import Drawn, drawn
from ozonewright.web.form import fields_of
from ozonewright.web.pages.common import answered, asks, entry_path
from ozonewright.web.reaction_form import (
    MOST_SUBSTRATES,
    reaction_groups,
    reaction_table,
    substrates_in,
    typed_reaction,
)
from ozonewright.web.view import FormPage, Page

LAST = 40


@dataclass(frozen=True, slots=True)
class ReactionRow:
    """One reaction that the notebook keeps."""

    label: str
    path: str
    substrate: str
    withdrawn: bool


@dataclass(frozen=True)
class ReactionPage(FormPage):
    """The form, the plan once it can be told, and what is kept already."""

    template = "reaction.html"
    plan: PlanView | None = None
    marks: Drawn | None = None
    can_grow: bool = True
    kept: tuple[ReactionRow, ...] = ()


def reaction_path(id: str) -> str:
    """Return the address of a reaction's page."""
    return entry_path(id, "reaction")


@asks
def reaction(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with a reaction in the address, its plan."""
    sent = {name: text.strip() for name, text in request.query_params.items()}
    more = "more" in sent
    count = min(substrates_in(sent) + more, MOST_SUBSTRATES)
    groups = reaction_groups(None, count)
    form = typed_reaction(groups, sent)
    page = ReactionPage("Reaction", form, can_grow=count < MOST_SUBSTRATES, kept=_kept(notebook))
    if more or not any(sent.get(one.place) for one in fields_of(groups)):
        return page, 200
    return answered(page, lambda: _planned(page, reaction_plan(reaction_table(form), notebook)))


def _planned(page: ReactionPage, plan: ReactionPlan) -> ReactionPage:
    return replace(page, plan=plan_view(plan), marks=drawn(plan_figure(plan)))


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
