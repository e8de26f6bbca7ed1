"""The recipe: the next titration set up, as a page that prints as a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.recipe import plan
from ozonewright.notebook import Notebook
from ozonewright.references.acids import acids
from ozonewright.show.pages import sentences
from ozonewright.show.recipe import BLANKS, CAUTIONS, answer_line, steps
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks, form_in
from ozonewright.web.view import FormPage, Page

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
class RecipePage(FormPage):
    """What is wished for, and the steps once they can be told."""

    template = "recipe.html"
    answer: str = ""
    steps: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = CAUTIONS
    blanks: tuple[str, ...] = tuple(words for _, words in BLANKS)


def _answered(form: Form) -> RecipePage:
    found = plan({place: text or None for place, text in form.values.items()})
    return RecipePage(
        "Recipe", form, answer_line(found), tuple(steps(found)), sentences(found.notes)
    )


@asks
def recipe(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with wishes in the address, the steps."""
    form = form_in(request, GROUPS)
    page = RecipePage("Recipe", form)
    if not any(text for place, text in form.values.items() if place != "acid"):
        return page, 200
    return answered(page, lambda: _answered(form))


ROUTES = (Route("/recipe", recipe),)
