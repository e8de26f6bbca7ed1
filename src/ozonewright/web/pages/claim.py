"""Claim: a label beside a setting of the notebook, or beside an output that is typed."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.claim import claim_of_files, claim_of_setting
from ozonewright.notebook import Notebook
from ozonewright.questions.claim import Claim
from ozonewright.show.claim import (
    band_text,
    evidence_text,
    implied_lines,
    page_answer,
    places_text,
)
from ozonewright.show.pages import Answer, Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks, form_in, setting_of
from ozonewright.web.run_form import table_of
from ozonewright.web.view import FormPage, Page

LABEL = Field("label", "What the label says", "4 g/h")
FEEDS = (("", "not said"), ("room air", "room air"), ("dry air", "dry air"), ("oxygen", "oxygen"))
MEASURED = (
    Field("run.rate", "Output you measured", "0.53 g/h ± 0.01"),
    Field("electrical.power", "Power at the plug", "41 W"),
    Field("gas.feed", "Feed", kind="choice", choices=FEEDS),
    Field("gas.flow", "Flow into the tube", "0.80 L/min"),
    Field("gas.temperature", "Temperature of that gas", "22 °C"),
    Field("gas.pressure", "Pressure of that gas", "101.3 kPa"),
)


@dataclass(frozen=True, slots=True)
class ImpliedRow:
    """What the label means here, and what was measured."""

    words: str
    label: str
    measured: str


@dataclass(frozen=True, slots=True)
class BandRow:
    """One published figure."""

    name: str
    band: str
    places: str
    evidence: str


@dataclass(frozen=True)
class ClaimPage(FormPage):
    """A label, and what is to be said of it."""

    template = "claim.html"
    answer: Answer | None = None
    next: tuple[str, ...] = ()
    implied: tuple[ImpliedRow, ...] = ()
    bands: tuple[BandRow, ...] = ()
    working: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _groups(notebook: Notebook | None) -> tuple[Group, ...]:
    """Return the form: the label, a setting where there is one, else what was measured."""
    chosen = setting_of(notebook, "choose, or type below")
    if chosen is None:
        return (Group("", (LABEL, *MEASURED), closed=False),)
    return (
        Group("", (LABEL, chosen), closed=False),
        Group("Another measurement", MEASURED),
    )


def _answered(form: Form, found: Claim) -> ClaimPage:
    return ClaimPage(
        "Claim",
        form,
        answer=page_answer(found),
        next=sentences(found.next),
        implied=tuple(ImpliedRow(*row) for row in implied_lines(found)),
        bands=tuple(
            BandRow(one.name, band_text(one), places_text(one), evidence_text(one))
            for one in found.bands
        ),
        working=sentences(found.working),
        remarks=remarks(found.notes),
        sources=source_lines(found),
    )


def _found(form: Form, measured: Form, notebook: Notebook | None) -> Claim:
    label, setting = form.values[LABEL.place], form.values.get("setting")
    if notebook is not None and setting:
        return claim_of_setting(notebook, setting, label)
    return claim_of_files([{"run": {}} | table_of(measured)], label)


@asks
def claim(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with a label in the address, what is to be said of it."""
    form = form_in(request, _groups(notebook))
    measured = form_in(request, (Group("", MEASURED),))
    page = ClaimPage("Claim", form)
    if not form.values[LABEL.place] and not any(measured.values.values()):
        return page, 200
    return answered(page, lambda: _answered(form, _found(form, measured, notebook)))


ROUTES = (Route("/claim", claim),)
