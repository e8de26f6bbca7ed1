"""Claim: a label beside a setting of the notebook, or beside an output that is typed."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.claim import claim_of_files, claim_of_setting
from ozonewright.errors import AppError
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
from ozonewright.web.form import Field, Form, Group, with_faults
from ozonewright.web.pages.common import shell
from ozonewright.web.run_form import table_of
from ozonewright.web.view import Page, desk_of, html, respond

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
SETTING = "setting"


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
class ClaimPage(Page):
    """A label, and what is to be said of it."""

    template = "claim.html"
    form: Form
    answer: Answer | None = None
    next: tuple[str, ...] = ()
    implied: tuple[ImpliedRow, ...] = ()
    bands: tuple[BandRow, ...] = ()
    working: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    sources: tuple[SourceLine, ...] = ()


def _groups(settings: list[str]) -> tuple[Group, ...]:
    """Return the form: the label, a setting where there is one, else what was measured."""
    if not settings:
        return (Group("", (LABEL, *MEASURED), closed=False),)
    choices = (("", "choose, or type below"), *((name, name) for name in settings))
    chosen = Field(SETTING, "Setting of the notebook", kind="choice", choices=choices)
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


def _asked(request: Request, notebook: Notebook | None) -> tuple[ClaimPage, int]:
    groups = _groups(list(notebook.settings()) if notebook is not None else [])
    places = [one.place for group in groups for one in group.fields]
    sent = {place: request.query_params.get(place, "").strip() for place in places}
    form = Form(groups, sent)
    measured = Form((Group("", MEASURED),), {one.place: sent[one.place] for one in MEASURED})
    if not sent[LABEL.place] and not any(measured.values.values()):
        return ClaimPage("Claim", form), 200
    try:
        if notebook is not None and sent.get(SETTING):
            found = claim_of_setting(notebook, sent[SETTING], sent[LABEL.place])
        else:
            found = claim_of_files([{"run": {}} | table_of(measured)], sent[LABEL.place])
    except AppError as error:
        return ClaimPage("Claim", with_faults(form, error)), 422
    return _answered(form, found), 200


def claim(request: Request) -> Response:
    """Show the form; with a label in the address, what is to be said of it."""
    file = desk_of(request).file
    if file is None:
        page, status = _asked(request, None)
        return respond(html(shell(request, None), page), status)
    with Notebook.open(file, read_only=True) as notebook:
        page, status = _asked(request, notebook)
        return respond(html(shell(request, notebook), page), status)


ROUTES = (Route("/claim", claim),)
