"""Drift: why runs disagree; a first question with typed points, or a setting of the notebook."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.drift import FIELDS, About, drift_of_notebook, drift_of_points
from ozonewright.bench.settled import drift_unbidden
from ozonewright.errors import AppError, Faults
from ozonewright.notebook import Notebook
from ozonewright.questions.drift import Drift, Start
from ozonewright.show.drift import blank_text, fit_text, out_texts, step_text
from ozonewright.show.drift_page import (
    CauseLine,
    FurtherRun,
    SeriesRow,
    cause_lines,
    further_runs,
    heading,
    next_text,
    series_rows,
)
from ozonewright.show.pages import Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.show.sheet.figures import drift_left_over, drift_series, drift_titres
from ozonewright.web.figure import Drawn, drawn
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks, form_in, setting_of
from ozonewright.web.view import FormPage, Page

POINTS = Field("points", "On-time and what it gave, a run on each line", "2 min: 0.92 g/h", "area")
BLANKS = Field(
    "field_blank", "Gas on, discharge off, if you made such a run", "4 min: 2.9 mL", "area"
)
TITRANT = Field("titrant", "Thiosulfate, if you type titres", "0.1 mol/L")
ORDERS = (("", "not known"), ("yes", "as given"))
IN_ORDER = Field("in_order", "Order of the runs", kind="choice", choices=ORDERS)
STARTS = (("", "not said"), *((word, word) for word in ("cold", "warm", "diverted")))
START = Field("start", "Start of every run", kind="choice", choices=STARTS)
SAID = (
    IN_ORDER,
    START,
    Field("rest", "Rest before each", "15 min"),
    Field("iodide", "Potassium iodide in the first bottle", "4 g"),
    Field("volume", "Water in each bottle", "200 mL"),
    Field("flow", "Gas through the bottles", "0.8 L/min"),
    Field("hold_up", "Hold-up of the line, as time", "12 s"),
    Field("temperature", "Temperature of the bottles", "20 °C"),
    Field("time_constant", "Time constant of the tube that warms", "4.6 min ± 0.3 min"),
    Field("cold_excess", "Output of the cold generator over the settled one", "12 % ± 4 points"),
)
MOST_RUNS = 100
"""Runs of a setting that one page weighs; the last ones count. The command takes all."""
FACTS = Group("What else you know of the runs", SAID)
TYPED = (POINTS, BLANKS, TITRANT)


@dataclass(frozen=True)
class DriftPage(FormPage):
    """The runs, the causes that fit, and the run that tells most."""

    template = "drift.html"
    settings: bool = False
    answer: str = ""
    fit: str = ""
    out: tuple[str, ...] = ()
    next: tuple[str, ...] = ()
    figure: Drawn | None = None
    left_over: Drawn | None = None
    titres: Drawn | None = None
    causes: tuple[CauseLine, ...] = ()
    further: tuple[FurtherRun, ...] = ()
    runs: tuple[SeriesRow, ...] = ()
    told: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    assumed: tuple[str, ...] = ()
    unknowns: str = ""
    sources: tuple[SourceLine, ...] = ()


def _groups(notebook: Notebook | None) -> tuple[Group, ...]:
    """Return the form: runs to type, or a setting to choose where there is one."""
    chosen = setting_of(notebook, "choose, or type below")
    if chosen is None:
        return (
            Group("", (POINTS, TITRANT), closed=False),
            Group("A field blank", (BLANKS,)),
            FACTS,
        )
    return (Group("", (chosen,), closed=False), Group("Other runs", TYPED), FACTS)


def _answered(form: Form, found: Drift, settings: bool) -> DriftPage:
    following = next_text(found)
    return DriftPage(
        "Drift",
        form,
        settings=settings,
        answer=heading(found),
        fit=fit_text(found),
        out=tuple(out_texts(found)),
        next=(following,) if following else (),
        figure=drawn(drift_series(found)),
        left_over=drawn(drift_left_over(found)),
        titres=drawn(drift_titres(found)),
        causes=tuple(cause_lines(found)),
        further=tuple(further_runs(found)),
        runs=tuple(series_rows(found)),
        told=tuple(_told(found)),
        steps=tuple(step_text(step) for step in found.steps),
        remarks=remarks(found.notes),
        assumed=sentences(found.assumed),
        unknowns=", ".join(found.unknowns),
        sources=source_lines(found),
    )


def _told(found: Drift) -> Iterator[str]:
    if len(found.points) == MOST_RUNS:
        yield f"The last {MOST_RUNS} runs."
    if blank := blank_text(found):
        yield blank


def _about(sent: Mapping[str, str]) -> About:
    start: dict[str, Start] = {"cold": "cold", "warm": "warm", "diverted": "diverted"}
    return About(
        texts={name: sent.get(name) or None for name in FIELDS},
        start=start.get(sent.get("start", "")),
        in_order=sent.get("in_order") == "yes",
        field_blanks=_lines(sent.get(BLANKS.place, "")),
    )


def _lines(text: str) -> tuple[str, ...]:
    """Return what stands on each line, or between semicolons."""
    return tuple(part.strip() for part in text.replace(";", "\n").splitlines() if part.strip())


def _at_points(error: AppError) -> AppError:
    """Return the error with the faults of single points at the field that they were typed in."""
    faults = error.faults if isinstance(error, Faults) else (error,)
    return Faults(
        [fault.at(POINTS.place) if fault.where.startswith("point ") else fault for fault in faults]
    )


def _found(sent: Mapping[str, str], notebook: Notebook | None) -> Drift:
    about = _about(sent)
    if notebook is not None and sent.get("setting"):
        known = drift_unbidden(notebook, sent["setting"]) if about.says_nothing else None
        return known or drift_of_notebook(notebook, sent["setting"], about, last=MOST_RUNS)
    try:
        return drift_of_points(_lines(sent[POINTS.place]), about)
    except AppError as error:
        raise _at_points(error) from error


@asks
def drift(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with runs in the address, why they disagree."""
    form = form_in(request, _groups(notebook))
    settings, sent = "setting" in form.values, form.values
    page = DriftPage("Drift", form, settings=settings)
    if not sent[POINTS.place] and not sent.get("setting"):
        return page, 200
    return answered(page, lambda: _answered(form, _found(sent, notebook), settings))


ROUTES = (Route("/drift", drift),)
