"""Power: what the plug gives, what the gas gets, and the grams of a kilowatt-hour on both bases.

A record is too long for an address, so the form is posted; nothing of it is stored.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.power import WAVES, power_of
from ozonewright.notebook import Notebook
from ozonewright.questions.power import Power
from ozonewright.show.pages import Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.show.power import (
    CAUTIONS,
    answer_line,
    basis_line,
    loop_cells,
    power_cells,
    yield_line,
)
from ozonewright.show.sheet.power import power_figures
from ozonewright.web.figure import Drawn, on_page
from ozonewright.web.form import Field, Form, Group, fields_of
from ozonewright.web.pages.common import answered, shell
from ozonewright.web.view import FormPage, desk_of, form_of, html, respond

PLUG = (
    Field("plug", "Power at the plug", "38 W ± 2 %"),
    Field("energy", "Or what the meter counted", "0.1140 kWh"),
    Field("time", "In what time", "3 h 0 min"),
    Field("standby", "At the plug with all running but the discharge", "6.0 W ± 2 %"),
    Field("output", "Output", "0.60 g/h ± 3 %"),
)
LOOP = Group(
    "A recorded loop of charge against voltage",
    (
        Field("probe", "Volts at the tube for a volt of the record", "1000:1 ± 3 %"),
        Field("capacitor", "Sense capacitor in the earth return", "100 nF ± 5 %"),
        Field("wave", "The voltage", kind="choice", choices=tuple((word, word) for word in WAVES)),
        Field(
            "loop",
            "The record, some thousand lines at most",
            "first line: time (µs), voltage (V), sense (V)",
            "area",
        ),
        Field("blank", "A blank: the same leads just below ignition", "as above", "area"),
    ),
)
MANLEY = Group(
    "Or Manley's equation",
    (
        Field("frequency", "Frequency", "1.000 kHz"),
        Field("dielectric", "Capacitance of the dielectric", "200 pF ± 3 %"),
        Field("gap", "Capacitance of the gap", "50 pF ± 5 %"),
        Field("gap_voltage", "Voltage over the gap while it burns", "3.0 kV ± 5 %"),
        Field("voltage", "Voltage of the tube: peak, pp or rms", "8.0 kV peak ± 2 %"),
    ),
)
KNOWN = Group("Or the discharge power, known already", (Field("discharge", "Power", "18 W ± 1 W"),))


@dataclass(frozen=True)
class PowerPage(FormPage):
    """The readings, and what they say."""

    template = "power.html"
    answer: str = ""
    yields: str = ""
    basis: str = ""
    next: tuple[str, ...] = ()
    figures: tuple[Drawn, ...] = ()
    powers: tuple[tuple[str, str, str], ...] = ()
    sides: tuple[tuple[str, str, str], ...] = ()
    working: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()
    cautions: tuple[str, ...] = CAUTIONS


def _groups(settings: tuple[str, ...]) -> tuple[Group, ...]:
    plug: tuple[Field, ...] = PLUG
    if settings:
        choices = (("", "as typed"), *((name, name) for name in settings))
        word = "Output and plug power from the runs of"
        plug = (*PLUG, Field("setting", word, kind="choice", choices=choices))
    return (Group("", plug, closed=False), LOOP, MANLEY, KNOWN)


def _answered(form: Form, found: Power) -> PowerPage:
    return PowerPage(
        "Power",
        form,
        answer=answer_line(found).replace(" %", "\u00a0%"),
        yields=yield_line(found),
        basis=basis_line(found),
        next=sentences(found.next),
        figures=tuple(map(on_page, power_figures(found))),
        powers=power_cells(found),
        sides=loop_cells(found.loop) if found.loop else (),
        working=sentences(found.working),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


def _asked(sent: Mapping[str, str], notebook: Notebook | None) -> tuple[PowerPage, int]:
    groups = _groups(tuple(notebook.settings()) if notebook else ())
    values = {one.place: sent.get(one.place, "").strip() for one in fields_of(groups)}
    form = Form(groups, values)
    page = PowerPage("Power", form)
    if not any(text for place, text in values.items() if place != "wave"):
        return page, 200
    return answered(page, lambda: _answered(form, power_of(values, notebook)))


def power(request: Request) -> Response:
    """Show the form; with readings, what they say. Nothing is stored."""
    sent = form_of(request) if request.method == "POST" else request.query_params
    file = desk_of(request).file
    if file is None:
        page, status = _asked(sent, None)
        return respond(html(shell(request, None), page), status)
    with Notebook.open(file, read_only=True) as notebook:
        page, status = _asked(sent, notebook)
        return respond(html(shell(request, notebook), page), status)


ROUTES = (Route("/power", power, methods=["GET", "POST"]),)
