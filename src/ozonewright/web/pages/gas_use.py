"""Gas use: how long a cylinder lasts, and what a gram costs."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.gas_use import use_of_gas
from ozonewright.notebook import Notebook
from ozonewright.questions.gas_use import GasUse
from ozonewright.references.cylinder_gas import cylinder_gases
from ozonewright.show.gas_use import (
    FLOW_HEADS,
    alternative_line,
    answer_parts,
    details,
    flow_cells,
)
from ozonewright.show.pages import (
    Answer,
    Remark,
    SourceLine,
    remarks,
    sentences,
    source_lines,
)
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks, form_in
from ozonewright.web.view import FormPage, Page

GASES = tuple((name, name) for name in cylinder_gases())
AT_REST = (("", "not stated"), ("runs", "runs on"), ("stops", "is closed"))
GROUPS = (
    Group(
        "",
        (
            Field("cylinder", "Water capacity of the cylinder", "10.0 L"),
            Field("pressure", "Its pressure", "150 bar gauge"),
            Field("flow", "Flow drawn", "0.50 NL/min"),
            Field("output", "Ozone it makes", "0.60 g/h ± 5 %"),
            Field("price", "Price of a full cylinder's gas", "130 EUR"),
        ),
        closed=False,
    ),
    Group(
        "Gas, temperature, reserve",
        (
            Field("gas", "Gas", kind="choice", choices=GASES),
            Field("temperature", "Temperature of the cylinder", "15 °C"),
            Field("ambient", "Air pressure", "101.3 kPa"),
            Field("reserve", "Left in the cylinder", "10 bar gauge"),
            Field("full", "Pressure of a full cylinder", "200 bar gauge"),
        ),
    ),
    Group(
        "Rests of the generator",
        (
            Field("on", "Discharge on", "6 min"),
            Field("off", "Discharge off", "9 min"),
            Field("gas_at_rest", "Gas meanwhile", kind="choice", choices=AT_REST),
        ),
    ),
    Group(
        "Hardware, rent, deposit",
        (
            Field("hardware", "Regulator, hoses: bought once", "180 EUR"),
            Field("hardware_life", "Hours of gas they last", "2000 h"),
            Field("rent", "Rent of the cylinder, a year", "80 EUR"),
            Field("use", "Hours of gas in a year", "100 h"),
            Field("deposit", "Deposit", "150 EUR"),
        ),
    ),
    Group(
        "Something else instead",
        (
            Field("energy_price", "Price of a kWh", "0.30 EUR"),
            Field("concentrator_price", "Concentrator: price", "600 EUR"),
            Field("concentrator_power", "Concentrator: power", "350 W"),
            Field("concentrator_output", "Ozone made with it", "0.55 g/h"),
            Field("second_tube_price", "Second tube: price", "80 EUR"),
            Field("second_tube_power", "Second tube: power", "38 W"),
            Field("second_tube_output", "Ozone of both tubes", "0.90 g/h"),
        ),
    ),
)


@dataclass(frozen=True)
class GasUsePage(FormPage):
    """What is known of the supply, and what follows."""

    template = "gas_use.html"
    answer: Answer | None = None
    details: tuple[tuple[str, str], ...] = ()
    next: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    alternatives: tuple[str, ...] = ()
    heads: tuple[str, ...] = FLOW_HEADS
    flows: tuple[tuple[str, ...], ...] = ()
    remarks: tuple[Remark, ...] = ()
    unknowns: tuple[str, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _answered(form: Form, found: GasUse) -> GasUsePage:
    return GasUsePage(
        "Gas use",
        form,
        answer=answer_parts(found),
        details=tuple(details(found)),
        next=sentences(found.next),
        working=sentences(found.working),
        alternatives=tuple(alternative_line(row, found.currency) for row in found.alternatives),
        flows=tuple(flow_cells(row) for row in found.flows),
        remarks=remarks(found.notes),
        unknowns=tuple(name.replace("_", " ") for name in found.unknowns),
        sources=source_lines(found),
    )


@asks
def gas_use(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with a supply in the address, what it lasts and costs."""
    form = form_in(request, GROUPS)
    texts = {place: text for place, text in form.values.items() if text}
    page = GasUsePage("Gas use", form)
    if not texts.keys() - {"gas"}:
        return page, 200
    return answered(page, lambda: _answered(form, use_of_gas(texts, notebook)))


ROUTES = (Route("/gas-use", gas_use),)
