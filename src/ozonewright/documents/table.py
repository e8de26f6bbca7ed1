"""Tables in and out: pasted text, CSV and points to run documents; rows to CSV.

A column of quantities names its unit in the header (``rate / g/h``, ``rate (g/h)``,
``rate_g_per_h``), or each of its cells does. A column beginning with ``u`` holds one standard
uncertainty of the column of that name.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from ozonewright.errors import AppError, Faults, InputError, MissingValue, UnitError, nearest
from ozonewright.units import Kind, read, slug
from ozonewright.units.table import ACCEPTED

TIME = (Kind.TIME,)
VOLUME = (Kind.VOLUME,)
NAMED: dict[str, tuple[str, tuple[Kind, ...]]] = {
    "label": ("run.label", ()),
    "run": ("run.label", ()),
    "setting": ("run.setting", ()),
    "by": ("run.by", ()),
    "remark": ("run.remark", ()),
    "rig": ("run.rig", ()),
    "room": ("run.room", ()),
    "started": ("run.started", ()),
    "start": ("run.start", ()),
    "discharge": ("run.discharge", ()),
    "on time": ("run.on_time", TIME),
    "time": ("run.on_time", TIME),
    "t": ("run.on_time", TIME),
    "rest before": ("run.rest_before", TIME),
    "rest": ("run.rest_before", TIME),
    "rate": ("run.rate", (Kind.MASS_RATE, Kind.AMOUNT_RATE)),
    "output": ("run.rate", (Kind.MASS_RATE, Kind.AMOUNT_RATE)),
    "collected": ("run.collected", (Kind.MASS, Kind.AMOUNT)),
    "ozone": ("run.collected", (Kind.MASS, Kind.AMOUNT)),
    "mass": ("run.collected", (Kind.MASS, Kind.AMOUNT)),
    "titre": ("titration.titres", VOLUME),
    "titre 1": ("titration.titres", VOLUME),
    "titre 2": ("titration.titres", VOLUME),
    "titre 3": ("titration.titres", VOLUME),
    "blank": ("titration.blank", VOLUME),
    "burette": ("titration.burette", ()),
    "titrant": ("titration.titrant.concentration", (Kind.CONCENTRATION,)),
    "feed": ("gas.feed", ()),
    "flow": ("gas.flow", (Kind.VOLUME_FLOW, Kind.NORMAL_FLOW)),
    "temperature": ("gas.temperature", (Kind.TEMPERATURE,)),
    "pressure": ("gas.pressure", (Kind.PRESSURE,)),
    "power": ("electrical.power", (Kind.POWER,)),
    "discharge power": ("electrical.discharge_power", (Kind.POWER,)),
    "wall": ("electrical.wall", (Kind.TEMPERATURE,)),
}
"""Name of a column: its place in a run document, and the kinds of quantity it may hold."""
WORKED_OUT = ("concentration", "yield", "guard share")
"""Columns of our own CSV that follow from the others: passed over when it is read in again."""
MEASURED = ("run.rate", "run.collected", "titration.titres")
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A cell of text that begins so would be run by a spreadsheet."""
_BARE = re.compile(r"[+-]?[\d.,]+(?:[eE][+-]?\d+)?")
LONGEST = 5_000_000


@dataclass(frozen=True, slots=True)
class Column:
    """One column as its header declares it."""

    head: str
    name: str
    place: str
    unit: str
    spread: bool = False


def points(texts: Iterable[str]) -> list[dict[str, Any]]:
    """Return the run documents of points such as ``2 min: 0.92 g/h``; all faults at once."""
    faults: list[AppError] = []
    found: list[dict[str, Any]] = []
    for number, text in enumerate(texts, start=1):
        on_time, colon, value = (part.strip() for part in _parted(text))
        try:
            if not colon:
                raise InputError(
                    "a point is an on-time and what it gave",
                    got=text,
                    fix='Write "2 min: 0.92 g/h", or "2 min: 30.7 mg".',
                )
            found.append(_point(on_time, value))
        except AppError as error:
            faults.append(error.at(f"point {number}"))
    if faults:
        raise Faults(faults)
    return found


def _parted(text: str) -> tuple[str, str, str]:
    for sign in (":", "=", "\t", ";"):
        if sign in text:
            return text.partition(sign)
    return text, "", ""


def _point(on_time: str, value: str) -> dict[str, Any]:
    read(on_time, Kind.TIME)
    kind = read(value, Kind.MASS_RATE, Kind.AMOUNT_RATE, Kind.MASS, Kind.AMOUNT, Kind.VOLUME).kind
    if kind is Kind.VOLUME:
        return {"run": {"on_time": on_time}, "titration": {"titres": [value]}}
    field = "rate" if kind in (Kind.MASS_RATE, Kind.AMOUNT_RATE) else "collected"
    return {"run": {"on_time": on_time, field: value}}


def read_csv(text: str) -> list[dict[str, Any]]:
    """Return a run document for each line of a table, CSV or pasted; all faults at once."""
    if len(text) > LONGEST:
        raise InputError(
            "the table is far too large", got=f"{len(text)} letters", fix="Split it into parts."
        )
    lines = [
        line
        for line in text.removeprefix("\ufeff").splitlines()
        if line.strip(" \t;,") and not line.lstrip().startswith("#")
    ]
    if not lines:
        raise MissingValue("the table is empty", fix="Write a header and one line for each run.")
    try:
        rows = list(csv.reader(lines, delimiter=_delimiter(lines[0]), skipinitialspace=True))
    except csv.Error as error:
        raise InputError(
            "this is no table", got=str(error), fix="Write a header, then one line for each run."
        ) from error
    if _headless(rows[0]):
        return points(": ".join(cell.strip() for cell in row if cell.strip()) for row in rows)
    columns = _columns(rows[0])
    faults: list[AppError] = []
    found: list[dict[str, Any]] = []
    for number, row in enumerate(rows[1:], start=1):
        try:
            found.append(_document(columns, row))
        except Faults as several:
            faults += [fault.at(f"line {number}") for fault in several]
    if faults:
        raise Faults(faults)
    if not found:
        raise MissingValue("the table has a header and no lines", fix="Write a line for each run.")
    return found


def _delimiter(header: str) -> str:
    return next((sign for sign in ("\t", ";", ",") if sign in header), ",")


def _headless(first: Sequence[str]) -> bool:
    """Whether the first line is a point already: every cell begins with a digit and has a unit."""
    cells = [cell.strip() for cell in first if cell.strip()]
    return len(cells) == 2 and all(
        cell[0].isdigit() and not _BARE.fullmatch(cell) for cell in cells
    )


def _columns(header: Sequence[str]) -> list[Column | None]:
    faults: list[AppError] = []
    found: list[Column | None] = []
    for head in header:
        try:
            found.append(_column(head.strip()) if head.strip() else None)
        except AppError as error:
            faults.append(error.at("header"))
    named = [column for column in found if column]
    if not faults and not any(column.place in MEASURED for column in named):
        faults.append(
            MissingValue(
                "no column says how much ozone came",
                where="header",
                got=", ".join(header),
                fix='Name one "rate / g/h", "collected / mg" or "titre / mL".',
            )
        )
    keys = [
        (column.name if column.place in ("", "titration.titres") else column.place, column.spread)
        for column in named
    ]
    for name in dict.fromkeys(name for name, spread in keys if keys.count((name, spread)) > 1):
        faults.append(
            InputError("two columns for one thing", where="header", got=name, fix="Keep one.")
        )
    if faults:
        raise Faults(faults)
    return found


def _column(head: str) -> Column:
    name, unit = _name_and_unit(head)
    tidy = " ".join(name.replace("_", " ").replace("-", " ").lower().split())
    spread = tidy.startswith(("u ", "± ")) or tidy.endswith(" ±")
    tidy = tidy.removeprefix("u ").removeprefix("± ").removesuffix(" ±")
    if tidy not in NAMED and not unit:
        tidy, unit = _with_slug(tidy)
    if tidy in WORKED_OUT:
        return Column(head, tidy, "", unit, spread)
    if tidy not in NAMED:
        raise InputError("this column is not known", got=head, fix=nearest(tidy, NAMED))
    place, kinds = NAMED[tidy]
    if unit and not any(unit in ACCEPTED[kind].units for kind in kinds):
        shown = [shown for kind in kinds for shown in ACCEPTED[kind].shown]
        raise UnitError(
            f"{unit} is no unit of {tidy}",
            got=head,
            fix=f"Use one of: {', '.join(shown)}." if shown else "Leave the unit out.",
        )
    return Column(head, tidy, place, unit, spread)


def _name_and_unit(head: str) -> tuple[str, str]:
    if match := re.fullmatch(r"(.+?)\s*[(\[]\s*(.+?)\s*[)\]]", head):
        return match[1], _plain(match[2])
    name, slash, unit = head.partition("/")
    return (name.strip(), _plain(unit.strip())) if slash else (head, "")


def _plain(unit: str) -> str:
    return unit.replace("³", "3").replace("²", "2").replace("μ", "µ")


def _with_slug(tidy: str) -> tuple[str, str]:
    """Split ``on time min``, which was ``on_time_min``, into a name and a unit."""
    words = tidy.split(" ")
    for cut in range(len(words) - 1, 0, -1):
        name, ending = " ".join(words[:cut]), "_".join(words[cut:])
        for kind in NAMED.get(name, ("", ()))[1]:
            for unit in ACCEPTED[kind].units:
                if slug(unit) == ending:
                    return name, unit
    return tidy, ""


def _document(columns: Sequence[Column | None], row: Sequence[str]) -> dict[str, Any]:
    table: dict[str, Any] = {}
    faults: list[AppError] = []
    cells = [
        (column, cell.strip()) for column, cell in zip(columns, row, strict=False) if cell.strip()
    ]
    faults += [
        InputError("a cell without a header", got=cell, fix="Name its column.")
        for column, cell in cells
        if column is None
    ]
    if len(row) > len(columns) and any(cell.strip() for cell in row[len(columns) :]):
        faults.append(
            InputError(
                "more cells than the header has columns",
                got=", ".join(row[len(columns) :]),
                fix="A decimal comma between commas? Quote the cell, or part the cells by tabs.",
            )
        )
    spreads = {
        column.place + column.name: _typed(column, cell)
        for column, cell in cells
        if column and column.spread
    }
    for column, cell in cells:
        if column is None or column.spread or not column.place:
            continue
        try:
            value = _value(column, cell)
            if spread := spreads.pop(column.place + column.name, None):
                value = f"{value} ± {spread}"
            _put(table, column.place, value)
        except AppError as error:
            faults.append(error.at(column.head))
    if faults:
        raise Faults(faults)
    return table


def _typed(column: Column, cell: str) -> str:
    """Return a cell with the unit of its header, unless it has one of its own."""
    return f"{cell} {column.unit}" if column.unit and _BARE.fullmatch(cell) else cell


def _value(column: Column, cell: str) -> Any:
    _, kinds = NAMED[column.name]
    if column.place == "run.started":
        return _moment(cell)
    if not kinds:
        return cell[1:] if cell[0] == "'" and cell[1:].startswith(FORMULA) else cell
    text = _typed(column, cell)
    read(text, *kinds)
    return text


def _moment(cell: str) -> datetime:
    try:
        return datetime.fromisoformat(cell)
    except ValueError as error:
        raise InputError(
            "this is no date with a time", got=cell, fix="Write 2026-05-09 10:20."
        ) from error


def _put(table: dict[str, Any], place: str, value: Any) -> None:
    *path, last = place.split(".")
    for step in path:
        table = table.setdefault(step, {})
    if last == "titres":
        table.setdefault(last, []).append(value)
    else:
        table[last] = value


def as_one(documents: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
    """Return several run documents as one table, so that a fault names the line it came from."""
    return {
        "run": [
            {**document.get("run", {}), **{k: v for k, v in document.items() if k != "run"}}
            for document in documents
        ]
    }


def write_csv(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a table as CSV; a text that a spreadsheet would take for a formula is quoted."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerow(header)
    return out.getvalue() + csv_rows(rows)


def csv_rows(rows: Iterable[Sequence[str]]) -> str:
    """Return the rows of a table alone, to go on with one that was begun."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerows([_harmless(cell) for cell in row] for row in rows)
    return out.getvalue()


def _harmless(cell: str) -> str:
    return f"'{cell}" if cell.startswith(FORMULA) and not _BARE.fullmatch(cell) else cell
