"""Comparison: two settings of the notebook, or two lists of outputs, beside each other."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.compare import compare_settings, compare_typed
from ozonewright.errors import AppError
from ozonewright.notebook import Notebook
from ozonewright.questions.comparison import Comparison
from ozonewright.show.compare import (
    difference_rows,
    order_line,
    page_answer,
    plan_lines,
    rates_line,
)
from ozonewright.show.compare_figure import TITLE, runs_figure
from ozonewright.show.pages import (
    Answer,
    BudgetLine,
    Remark,
    SourceLine,
    budget_lines,
    remarks,
    sentences,
    source_lines,
)
from ozonewright.web.form import Field, Form, Group, with_faults
from ozonewright.web.pages.common import shell
from ozonewright.web.view import Page, desk_of, html, respond

DIFFERENCE = Field("difference", "A difference you want to tell", "5 %")
TYPED = (
    Group(
        "",
        (
            Field("first", "One setting", "oxygen"),
            Field("first_rates", "Output of each of its runs", "0.62 g/h; 0.61 g/h; 0.63 g/h"),
            Field("second", "The other setting", "dry air"),
            Field("second_rates", "Output of each of its runs", "0.19 g/h; 0.20 g/h"),
            DIFFERENCE,
        ),
        closed=False,
    ),
)


@dataclass(frozen=True, slots=True)
class DifferenceRow:
    """One thing that was not the same."""

    factor: str
    first: str
    second: str
    within: str


@dataclass(frozen=True)
class ComparePage(Page):
    """Two settings, and what is to be said of them."""

    template = "compare.html"
    form: Form
    settings: bool = False
    first: str = ""
    second: str = ""
    answer: Answer | None = None
    rates: str = ""
    next: tuple[str, ...] = ()
    differs: tuple[DifferenceRow, ...] = ()
    not_compared: str = ""
    plan: tuple[str, ...] = ()
    order: str = ""
    figure: Markup | None = None
    caption: str = TITLE
    working: tuple[str, ...] = ()
    budget: tuple[BudgetLine, ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _groups(settings: list[str]) -> tuple[Group, ...]:
    """Return the form: two settings to choose where there are two, else two lists to type."""
    if len(settings) < 2:
        return TYPED
    choices = (("", "choose"), *((name, name) for name in settings))
    return (
        Group(
            "",
            (
                Field("first", "One setting", kind="choice", choices=choices),
                Field("second", "The other setting", kind="choice", choices=choices),
                DIFFERENCE,
            ),
            closed=False,
        ),
    )


def _answered(form: Form, found: Comparison, settings: bool) -> ComparePage:
    return ComparePage(
        "Comparison",
        form,
        settings=settings,
        first=found.first,
        second=found.second,
        answer=page_answer(found),
        rates=rates_line(found),
        next=sentences(found.next),
        differs=tuple(DifferenceRow(*row) for row in difference_rows(found.differs)),
        not_compared=", ".join(found.not_compared),
        plan=tuple(plan_lines(found.plan)),
        order=order_line(found),
        figure=Markup(runs_figure(found)),
        working=sentences(found.working),
        budget=budget_lines(found.budget),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


def _asked(request: Request, notebook: Notebook | None) -> tuple[ComparePage, int]:
    known = notebook.settings() if notebook is not None else []
    groups = _groups(list(known))
    sent = {
        one.place: request.query_params.get(one.place, "").strip()
        for group in groups
        for one in group.fields
    }
    form, settings = Form(groups, sent), groups is not TYPED
    needed = ("first", "second") if settings else ("first_rates", "second_rates")
    if not any(sent[place] for place in needed) or (
        settings and not all(sent[place] for place in needed)
    ):
        return ComparePage("Comparison", form, settings=settings), 200
    try:
        if settings and notebook is not None:
            found = compare_settings(notebook, sent["first"], sent["second"], sent["difference"])
        else:
            found = compare_typed(sent)
    except AppError as error:
        return ComparePage("Comparison", with_faults(form, error), settings=settings), 422
    return _answered(form, found, settings), 200


def compare(request: Request) -> Response:
    """Show the form; with two settings in the address, the comparison."""
    file = desk_of(request).file
    if file is None:
        page, status = _asked(request, None)
        return respond(html(shell(request, None), page), status)
    with Notebook.open(file, read_only=True) as notebook:
        page, status = _asked(request, notebook)
        return respond(html(shell(request, notebook), page), status)


ROUTES = (Route("/compare", compare),)
