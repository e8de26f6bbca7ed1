"""Generator: where it runs on its map, and what a change would bring."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.generator import Mapped, answered_with_maps, question_of_notebook
from ozonewright.notebook import Notebook
from ozonewright.show.generator import (
    answer_line,
    best_line,
    clock_line,
    lumped_cells,
    place_line,
    upgrade_cells,
)
from ozonewright.show.pages import Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.show.sheet.generator import generator_figure
from ozonewright.show.sheet.generator_maps import map_figures
from ozonewright.web.figure import Drawn, on_page
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks, form_in
from ozonewright.web.view import FormPage, Page

WISHES = (
    Field("concentration", "Concentration wanted", "40 g/Nm3"),
    Field("output", "Output wanted", "0.6 g/h"),
    Field("gas_price", "Price of a Nm³ of feed", "9 EUR"),
    Field("energy_price", "Price of a kWh", "0.30 EUR"),
    Field("prices", "Prices of changes", "cooler wall=15 EUR, oxygen feed=180 EUR"),
)
SETTING = "setting"
LOG = "log"


@dataclass(frozen=True)
class GeneratorPage(FormPage):
    """The place asked for, and what is to be said of it."""

    template = "generator.html"
    has_runs: bool = True
    answer: str = ""
    place: str = ""
    clock: str = ""
    next: tuple[str, ...] = ()
    changes: tuple[tuple[str, ...], ...] = ()
    best: tuple[str, ...] = ()
    lumped: tuple[tuple[str, ...], ...] = ()
    figure: Drawn | None = None
    maps: tuple[Drawn, ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _groups(settings: list[str]) -> tuple[Group, ...]:
    choices = (("", "all of the notebook"), *((name, name) for name in settings))
    return (
        Group(
            "",
            (
                Field(SETTING, "Runs of", kind="choice", choices=choices),
                Field("at", "Place, from the last run", "flow=1.2 L/min, wall=45 °C"),
                Field(
                    LOG,
                    "Temperature log, for runs that do not state that of the tube",
                    "a line for each reading below: time (min), temperature (°C), discharge",
                    "area",
                ),
            ),
            closed=False,
        ),
        Group("Wishes and prices", WISHES),
    )


def _answered(form: Form, mapped: Mapped) -> GeneratorPage:
    found = mapped.answer
    return GeneratorPage(
        "Generator",
        form,
        answer=answer_line(found),
        place=place_line(found),
        clock=clock_line(found),
        next=sentences(found.next),
        changes=tuple(map(upgrade_cells, found.upgrades)),
        best=tuple(map(best_line, found.best)),
        lumped=tuple(lumped_cells(found)),
        figure=on_page(generator_figure(found)),
        maps=tuple(on_page(one) for one in map_figures(mapped)),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


@asks
def generator(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with a place in the address, the map of the generator."""
    if notebook is None:
        return GeneratorPage("Generator", Form((), {}), has_runs=False), 200
    form = form_in(request, _groups(list(notebook.settings())))
    page, sent = GeneratorPage("Generator", form), form.values
    if not request.query_params:
        return page, 200
    return answered(page, lambda: _answered(form, _asked(notebook, sent)))


def _asked(notebook: Notebook, sent: Mapping[str, str]) -> Mapped:
    return answered_with_maps(question_of_notebook(notebook, sent[SETTING] or None, sent))


ROUTES = (Route("/generator", generator),)
