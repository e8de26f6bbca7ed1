"""Duty: a timer's pattern, how warm the tube becomes, and what an hour of the clock brings."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.duty import GAS, timer
from ozonewright.notebook import Notebook
from ozonewright.questions.duty import Duty
from ozonewright.show.duty import (
    CAUTIONS,
    air_line,
    answer_line,
    body_lines,
    cooling_lines,
    limit_line,
    output_lines,
    pattern_lines,
    wasted_line,
)
from ozonewright.show.pages import Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.show.sheet.duty import duty_figures
from ozonewright.web.figure import Drawn, on_page
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks, form_in
from ozonewright.web.view import FormPage, Page

GROUPS = (
    Group(
        "",
        (
            Field("on", "Discharge on", "6 min"),
            Field("off", "Discharge off", "9 min"),
            Field("time_constant", "Time constant of the tube", "4.6 min ± 0.5 min"),
            Field("output", "Output while on", "0.62 g/h ± 5 %"),
            Field("output_at", "Tube temperature then", "55 °C, cold, or warm"),
            Field("temperature_coefficient", "Its change per kelvin", "-0.4 %/K ± 0.1"),
        ),
        closed=False,
    ),
    Group(
        "Heat and gas",
        (
            Field("rise", "Rise over the ambient if it ran on", "60 K ± 3 K"),
            Field("ambient", "Ambient", "25 °C"),
            Field("limit", "Highest temperature it may have", "70 °C"),
            Field(
                "gas",
                "The gas, while the discharge is off",
                kind="choice",
                choices=(("", "not said"), *((word, word) for word in GAS)),
            ),
            Field("flow", "Gas, as a normal flow", "0.74 NL/min"),
            Field("solvent", "Solvent that it passes through", "methanol"),
            Field("liquid_temperature", "Temperature of the solvent", "-40 °C"),
            Field(
                "log",
                "Temperature log, in place of time constant and rise",
                "a line for each reading below: time (min), temperature (°C), discharge",
                "area",
            ),
        ),
        closed=False,
    ),
)
FAN = Group(
    "What air would bring: tube, fan, box",
    (
        Field("heat", "Heat of the tube", "30 W"),
        Field("tube_diameter", "Its diameter, outside", "20 mm"),
        Field("tube_length", "Its length that is warm", "200 mm"),
        Field("fan", "Fan: air it moves freely", "30 m3/h"),
        Field("shut_off", "Pressure at which it moves none", "25 Pa"),
        Field("openings", "Free area into the box, as much out", "20 cm2"),
        Field("box_section", "Section of the box that the air passes", "300 cm2"),
        Field("fan_outlet", "Outlet of a fan that blows on the tube", "50 cm2"),
    ),
)


def _groups(settings: tuple[str, ...]) -> tuple[Group, ...]:
    """Return the fields; with a notebook also those of its runs."""
    if not settings:
        return (*GROUPS, FAN)
    choices = (("", "no, as typed"), *((name, name) for name in settings))
    book = Group(
        "Output from the runs of the notebook",
        (
            Field("setting", "The generator fitted to the runs of", kind="choice", choices=choices),
            Field("at", "Place, from the last run", "flow=1.2 L/min"),
        ),
        closed=False,
    )
    return (*GROUPS, book, FAN)


@dataclass(frozen=True, slots=True)
class PatternLine:
    """A pattern that stays below the limit."""

    on: str
    off: str
    peak: str
    ozone: str
    best: bool


@dataclass(frozen=True)
class DutyPage(FormPage):
    """The pattern asked, and what it does."""

    template = "duty.html"
    answer: str = ""
    limit: str = ""
    next: tuple[str, ...] = ()
    of_log: tuple[str, ...] = ()
    patterns: tuple[PatternLine, ...] = ()
    output: tuple[str, ...] = ()
    wasted: str = ""
    cooling: tuple[tuple[str, ...], ...] = ()
    air: str = ""
    figures: tuple[Drawn, ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()
    cautions: tuple[str, ...] = CAUTIONS


def _answered(form: Form, found: Duty) -> DutyPage:
    lines = zip(pattern_lines(found), found.patterns, strict=True)
    return DutyPage(
        "Duty",
        form,
        answer=answer_line(found),
        limit=limit_line(found),
        next=sentences(found.next),
        of_log=tuple(body_lines(found)),
        patterns=tuple(PatternLine(*texts, row.best) for texts, row in lines),
        output=tuple(output_lines(found)),
        wasted=wasted_line(found),
        cooling=tuple(cooling_lines(found)),
        air=air_line(found),
        figures=tuple(map(on_page, duty_figures(found))),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


@asks
def duty(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with a pattern in the address, what it does."""
    form = form_in(request, _groups(tuple(notebook.settings()) if notebook else ()))
    page = DutyPage("Duty", form)
    if not any(form.values.values()):
        return page, 200
    asked = notebook if form.values.get("setting") else None
    return answered(page, lambda: _answered(form, timer(form.values, asked)))


ROUTES = (Route("/duty", duty),)
