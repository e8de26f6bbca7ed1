"""The absorber: how much ozone the bottles of a rig take up; a reaction in its flask."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.absorber import run, uptake
from ozonewright.documents.load import read_text
from ozonewright.notebook import Notebook
from ozonewright.show import absorber_course
from ozonewright.show.absorber import (
    answer_parts,
    bottle_details,
    changes_shown,
    details,
    what_if_text,
)
from ozonewright.show.absorber_run import HEADS, course, point_cells, run_details, run_parts
from ozonewright.show.pages import (
    Answer,
    Remark,
    SourceLine,
    remarks,
    sentences,
    source_lines,
)
from ozonewright.show.sheet.absorber import absorber_figures, simulated_figures
from ozonewright.show.signs import sign_lines
from ozonewright.web.figure import Drawn, on_page
from ozonewright.web.form import Field, Form, Group
from ozonewright.web.pages.common import answered, asks
from ozonewright.web.pages.rig import STARTER
from ozonewright.web.view import FormPage, Page

ASKED = (
    Field("output", "Ozone sent in", "0.6 g/h"),
    Field("flow", "Dry feed; if left out, that of the gas line", "0.8 NL/min"),
)
MEASURED = (
    Field("guard_share", "Guard share", "2.9 %"),
    Field("slip", "Or the slip, of the ozone sent in", "4 %"),
    Field("tail_titre", "Or the titre of a tail bottle", "1.02 mL"),
    Field("titrant", "its titrant", "0.0510 mol/L"),
    Field("blank", "its blank", "0.18 mL"),
    Field("on_time", "its on-time", "4 min"),
    Field("bubble", "Bubbles seen", "3 mm"),
)


@dataclass(frozen=True, slots=True)
class Bottle:
    """One bottle with its figures."""

    name: str
    details: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class AbsorberPage(FormPage):
    """What was asked, and what comes of it."""

    template = "absorber.html"
    answer: Answer | None = None
    details: tuple[tuple[str, str], ...] = ()
    bottles: tuple[Bottle, ...] = ()
    changes: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()
    figures: tuple[Drawn, ...] = ()
    course_heads: tuple[str, ...] = ()
    course: tuple[tuple[str, ...], ...] = ()
    heads: tuple[str, ...] = HEADS
    rows: tuple[tuple[str, ...], ...] = ()
    working: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    unknowns: tuple[str, ...] = ()
    sources: tuple[SourceLine, ...] = ()


@asks
def absorber(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with an output or a reaction in the address, the answer."""
    sent = {name: text.strip() for name, text in request.query_params.items()}
    form = Form(_groups(notebook), {"document": STARTER, **sent})
    typed = {one.place: sent.get(one.place, "") for one in (*ASKED, *MEASURED)}
    page = AbsorberPage("Absorber", form)
    if not any(typed.values()) and not sent.get("reaction"):
        return page, 200
    return answered(page, lambda: _answer(form, sent, typed, notebook))


def _answer(
    form: Form, sent: Mapping[str, str], typed: Mapping[str, str], notebook: Notebook | None
) -> AbsorberPage:
    rig = _rig(sent, notebook)
    if notebook is not None and sent.get("reaction"):
        entry = notebook.get(sent["reaction"])
        return _simulated(form, run(rig, entry.data, typed, notebook))
    return _answered(form, uptake(rig, typed))


def _rig(sent: Mapping[str, str], notebook: Notebook | None) -> Mapping[str, Any]:
    if notebook is not None and sent.get("rig"):
        return notebook.get(sent["rig"]).data
    return read_text(sent.get("document", "").replace("\r\n", "\n"))


def _groups(notebook: Notebook | None) -> tuple[Group, ...]:
    rigs = notebook.entries(kind="rig")[::-1] if notebook else []
    reactions = notebook.entries(kind="reaction")[::-1] if notebook else []
    first: list[Field] = []
    if rigs:
        first.append(
            Field("rig", "Rig", kind="choice", choices=tuple((r.id, r.label) for r in rigs))
        )
    if rigs and reactions:
        choices = (("", "none: the bottles as they are"), *((r.id, r.label) for r in reactions))
        first.append(Field("reaction", "A reaction in its flask", kind="choice", choices=choices))
    if not rigs:
        first.append(Field("document", "The rig", "[rig] and one [[part]] for each part", "area"))
    return (
        Group("", (*first, *ASKED), closed=False),
        Group("What was measured", MEASURED, closed=True),
    )


def _answered(form: Form, found: Any) -> AbsorberPage:
    return AbsorberPage(
        "Absorber",
        form,
        answer=answer_parts(found),
        details=tuple(details(found)),
        bottles=tuple(Bottle(row.name, tuple(bottle_details(row))) for row in found.bottles),
        changes=tuple(_begun(what_if_text(row)) for row in changes_shown(found)),
        figures=tuple(map(on_page, absorber_figures(found))),
        course_heads=absorber_course.heads(found),
        course=tuple(absorber_course.lines(found)),
        working=sentences(found.working),
        remarks=remarks(found.notes),
        unknowns=found.unknowns,
        sources=source_lines(found),
    )


def _begun(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _simulated(form: Form, found: Any) -> AbsorberPage:
    return AbsorberPage(
        "Absorber",
        form,
        answer=run_parts(found),
        details=tuple(run_details(found)),
        figures=tuple(map(on_page, simulated_figures(found))),
        signs=tuple(sign_lines(found.signs)),
        rows=tuple(point_cells(point) for point in course(found)),
        remarks=remarks(found.notes),
        unknowns=found.unknowns,
        sources=source_lines(found),
    )


ROUTES = (Route("/absorber", absorber),)
