"""The recipe: the next titration set up, as a page that prints as a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.recipe import plan
from ozonewright.errors import AppError
from ozonewright.notebook import Notebook
from ozonewright.references.acids import acids
from ozonewright.show.pages import sentences
from ozonewright.show.recipe import BLANKS, CAUTIONS, answer_line, steps
from ozonewright.web.form import Field, Form, Group, with_faults
from ozonewright.web.pages.common import shell
from ozonewright.web.view import Page, desk_of, html, respond

GROUPS = (
    Group(
        "",
        (
            Field("output", "Output you expect", "0.6 g/h ± 20 %"),
            Field("titrant", "Thiosulfate", "0.05 mol/L"),
            Field("burette", "Burette", "50 mL"),
            Field("flow", "Gas through the bottles", "0.8 L/min"),
        ),
        closed=False,
    ),
    Group(
        "What is on hand",
        (
            Field("volume", "Water in each bottle", "200 mL"),
            Field("iodide", "Potassium iodide for each bottle", "4 g"),
            Field(
                "acid",
                "Acid",
                kind="choice",
                choices=tuple((name, name) for name in acids()),
            ),
            Field("acid_strength", "Its strength", "1 mol/L"),
            Field("on_time", "A time you want instead", "4 min"),
        ),
    ),
)


@dataclass(frozen=True)
class RecipePage(Page):
    """What is wished for, and the steps once they can be told."""

    template = "recipe.html"
    form: Form
    answer: str = ""
    steps: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = CAUTIONS
    blanks: tuple[str, ...] = tuple(words for _, words in BLANKS)


def recipe(request: Request) -> Response:
    """Show the form; with wishes in the address, the steps."""
    sent = {one.place: request.query_params.get(one.place, "") for g in GROUPS for one in g.fields}
    form, status = Form(GROUPS, sent), 200
    page = RecipePage("Recipe", form)
    if any(text.strip() for place, text in sent.items() if place != "acid"):
        try:
            found = plan({place: text.strip() or None for place, text in sent.items()})
            page = RecipePage(
                "Recipe", form, answer_line(found), tuple(steps(found)), sentences(found.notes)
            )
        except AppError as error:
            page, status = RecipePage("Recipe", with_faults(form, error)), 422
    file = desk_of(request).file
    if file is None:
        return respond(html(shell(request, None), page), status)
    with Notebook.open(file, read_only=True) as notebook:
        return respond(html(shell(request, notebook), page), status)


ROUTES = (Route("/recipe", recipe),)
