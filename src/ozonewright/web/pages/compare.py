"""Comparison: two settings of the notebook, or two lists of outputs, beside each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.compare import compare_settings, compare_typed
from ozonewright.notebook import Notebook
from ozonewright.questions.comparison import Comparison
from ozonewright.show.compare import (
    difference_rows,
    order_line,
    page_answer,
    plan_lines,
    rates_line,
)
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
from ozonewright.show.sheet.comparison import compared_figure
from ozonewright.web.figure import Drawn, on_page
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks, form_in, setting_of
from ozonewright.web.view import FormPage, Page

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
class ComparePage(FormPage):
    """Two settings, and what is to be said of them."""

    template = "compare.html"
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
    figure: Drawn | None = None
    working: tuple[str, ...] = ()
    budget: tuple[BudgetLine, ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _groups(notebook: Notebook | None) -> tuple[Group, ...]:
    """Return the form: two settings to choose where there are two, else two lists to type."""
    if notebook is None or len(notebook.settings()) < 2:
        return TYPED
    first = setting_of(notebook, "choose", "first", "One setting")
    second = setting_of(notebook, "choose", "second", "The other setting")
    return (Group("", (*filter(None, (first, second)), DIFFERENCE), closed=False),)


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
        figure=on_page(compared_figure(found)),
        working=sentences(found.working),
        budget=budget_lines(found.budget),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


def _found(sent: Mapping[str, str], notebook: Notebook | None) -> Comparison:
    if notebook is not None:
        return compare_settings(notebook, sent["first"], sent["second"], sent["difference"])
    return compare_typed(sent)


@asks
def compare(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with two settings in the address, the comparison."""
    groups = _groups(notebook)
    form, settings = form_in(request, groups), groups is not TYPED
    page = ComparePage("Comparison", form, settings=settings)
    needed = ("first", "second") if settings else ("first_rates", "second_rates")
    filled = [place for place in needed if form.values[place]]
    if not filled or (settings and len(filled) < len(needed)):
        return page, 200
    chosen_from = notebook if settings else None
    return answered(page, lambda: _answered(form, _found(form.values, chosen_from), settings))


ROUTES = (Route("/compare", compare),)
