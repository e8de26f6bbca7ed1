"""The room: what people breathe when some of the ozone gets out."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.room import WAYS, ask
from ozonewright.errors import AppError, InputError
from ozonewright.notebook import Notebook
from ozonewright.questions.room.oxygen import OxygenAnswer
from ozonewright.questions.room.result import RoomAnswer
from ozonewright.references.exposure import exposure_limits
from ozonewright.show.pages import Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.show.room import (
    answer_line,
    case_rows,
    facts,
    limit_rows,
    oxygen_facts,
    oxygen_line,
    sureness_line,
)
from ozonewright.show.sheet.room import room_figure
from ozonewright.web.figure import Drawn, on_page
from ozonewright.web.form import Field, Form, Group, filled, shown, with_faults
from ozonewright.web.pages.common import acts, answered, asks, form_in
from ozonewright.web.view import FormPage, NavEntry, Page

LIMITS = tuple((name, name) for name in exposure_limits())
GROUPS = (
    Group(
        "",
        (
            Field("room.volume", "Air of the room", "24 m3"),
            Field("room.air_changes", "Air changes", "0.5 /h"),
            Field("room.limit", "Your own limit", "0.1 ppm"),
            Field(
                "limit_of",
                "or that of",
                kind="choice",
                choices=(("", "nobody: my own"), *LIMITS),
            ),
            Field("release", "Ozone that gets out", "100 mg/h"),
            Field("output", "or what the tube makes", "0.6 g/h"),
        ),
        closed=False,
    ),
    Group(
        "More about the room",
        (
            Field("room.removal", "Loss on surfaces", "2.8 /h ± 1.3 /h"),
            Field("room.fan", "Fresh air by a fan", "120 m3/h"),
            Field("room.decay", "Loss in the air itself", "0.1 /h"),
            Field("room.temperature", "Temperature", "22 °C"),
            Field("room.pressure", "Pressure", "101.3 kPa"),
        ),
    ),
    Group(
        "More about the ozone",
        (
            Field("slip", "Share that the liquid does not take", "5 %"),
            Field("destroyed", "Share of the slip that the tail takes", "95 %"),
            Field("leak", "Share that a joint leaks", "1 %"),
            Field("purge", "Ozone driven out at once", "20 mg"),
            Field("concentration", "or ozone in the gas of the train", "12 g/Nm3"),
            Field("leak_flow", "Of that gas, what a joint leaks", "10 mL/min"),
            Field("gas_space", "Of that gas, what a purge drives out", "500 mL"),
            Field("lasts", "How long it goes on", "10 min"),
        ),
    ),
    Group(
        "Oxygen",
        (
            Field("oxygen", "Oxygen that leaks or vents into the room", "1 L/min"),
            Field("oxygen_share", "Oxygen in that gas", "93 vol%"),
        ),
    ),
)
FIELDS = tuple(one for group in GROUPS for one in group.fields)
OF_ROOM = tuple(one for one in FIELDS if one.place.startswith("room."))


@dataclass(frozen=True, slots=True)
class Told:
    """One answer: of the ozone, or of the oxygen."""

    answer: str
    sureness: str
    next: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]
    cases: tuple[tuple[str, str, str, str], ...]
    working: tuple[str, ...]
    figure: Drawn | None
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class RoomPage(FormPage):
    """The form, and the answers once they can be told."""

    template = "room.html"
    told: tuple[Told, ...] = ()
    sources: tuple[SourceLine, ...] = ()
    limits: tuple[tuple[str, str, str, str, str], ...] = ()
    kept: tuple[NavEntry, ...] = ()
    """Rooms of the notebook."""
    typed: tuple[tuple[str, str], ...] = ()
    """The room as typed, to be kept under a name."""
    sheet: str = ""


@asks
def room(request: Request, notebook: Notebook | None) -> tuple[Page, int]:
    """Show the form; with a room and a release in the address, the answer."""
    sent = dict(form_in(request, GROUPS).values)
    if notebook is not None and (kept := request.query_params.get("kept")):
        sent = _kept(notebook, kept) | {name: text for name, text in sent.items() if text}
    return _asked(sent, notebook)


def _kept(notebook: Notebook, id: str) -> dict[str, str]:
    """Return the fields of a room of the notebook as they were typed."""
    entry = notebook.get(id)
    if entry.kind != "room":
        raise InputError(
            "this entry is no room", got=f"{entry.label} ({entry.kind})", fix="Choose a room."
        )
    return dict.fromkeys((one.place for one in FIELDS), "") | shown(entry.data, OF_ROOM)


def _asked(sent: dict[str, str], notebook: Notebook | None) -> tuple[RoomPage, int]:
    """Return the page and its status: the answer where what gets out is said."""
    form = Form(GROUPS, sent)
    page, status = RoomPage("Room", form), 200
    if any(sent[name] for name in WAYS) or sent["limit_of"]:
        page, status = answered(page, lambda: _answered(form, sent))
    page = replace(page, limits=tuple(limit_rows()))
    if notebook is None:
        return page, status
    typed = tuple((one.place, sent[one.place]) for one in OF_ROOM if sent[one.place])
    rooms = notebook.entries(kind="room")
    paths = tuple(NavEntry(one.label, _path(one.id)) for one in reversed(rooms))
    return replace(page, kept=paths, typed=typed, sheet=secrets.token_hex(8)), status


def _path(id: str) -> str:
    return f"/room?kept={quote(id, safe='')}"


def _table(sent: Mapping[str, str]) -> dict[str, Any]:
    table = filled({"room": {}}, OF_ROOM, sent)
    table = {"room": dict(table.get("room", {}))}
    if sent.get("limit_of") and not sent.get("room.limit"):
        table["room"]["limit"] = sent["limit_of"]
    return table


@acts
def keep(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
    """Keep the room as typed, under a name of its own."""
    typed = {one.place: sent.get(one.place, "") for one in FIELDS}
    try:
        label = sent.get("label", "").strip()
        if not label or any(one.label == label for one in notebook.entries(kind="room")):
            raise InputError(
                "the room needs a name of its own",
                where="label",
                got=label,
                fix="Write one that no other room has, such as workshop.",
            )
        table = _table(typed)
        entry = notebook.add("room", {"room": {"label": label} | table["room"]}, source="page")
    except AppError as error:
        page, _ = _asked(typed, notebook)
        return replace(page, form=with_faults(page.form, error))
    return f"{_path(entry.id)}&done=kept"


def _answered(form: Form, sent: dict[str, str]) -> RoomPage:
    found = ask(_table(sent), {name: sent[name] or None for name in WAYS})
    told = [_of_ozone(found.ozone)] if found.ozone else []
    told += [_of_oxygen(found.oxygen)] if found.oxygen else []
    lines = [line for one in (found.ozone, found.oxygen) if one for line in source_lines(one)]
    return RoomPage("Room", form, tuple(told), tuple(dict.fromkeys(lines)))


def _of_ozone(found: RoomAnswer) -> Told:
    return Told(
        answer=answer_line(found),
        sureness=sureness_line(found),
        next=sentences(found.next),
        facts=tuple(facts(found)),
        cases=tuple(case_rows(found)),
        working=sentences(found.working),
        figure=on_page(room_figure(found)),
        remarks=remarks(found.notes),
    )


def _of_oxygen(found: OxygenAnswer) -> Told:
    return Told(
        answer=oxygen_line(found),
        sureness="",
        next=sentences(found.next),
        facts=tuple(oxygen_facts(found)),
        cases=(),
        working=sentences(found.working),
        figure=None,
        remarks=remarks(found.notes),
    )


ROUTES = (
    Route("/room", room, methods=["GET"]),
    Route("/room", keep, methods=["POST"]),
)
