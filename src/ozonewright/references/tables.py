"""Reads the shipped tables once: CSV files with names in line 1 and units in line 2."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TypeVar

from ozonewright.errors import DataError, NoDataInRange, nearest
from ozonewright.units import Kind, size
from ozonewright.units.table import to_si

FOLDER = Path(__file__).parent
EVIDENCE = ("published", "library", "common practice", "memory", "invented")
"""The grades of evidence, best first."""
UNSTATED = "unstated"
One = TypeVar("One")


@dataclass(frozen=True, slots=True)
class Datum:
    """One shipped figure in SI, and where it comes from."""

    name: str
    value: float
    u: float | None
    """One standard uncertainty in SI, or None where the source states none."""
    kind: Kind
    unit: str
    """The unit of the table row."""
    printed: float
    """The value in that unit, as the row prints it."""
    source: str
    locator: str
    evidence: str
    note: str
    range: str = ""


@cache
def rows(table: str) -> tuple[dict[str, str], ...]:
    """Return the rows of a table, each as names to text; the line of units is left out."""
    return _read(table)[1:]


@cache
def column_units(table: str) -> dict[str, str]:
    """Return the unit of each column of a table."""
    return _read(table)[0]


@cache
def _read(table: str) -> tuple[dict[str, str], ...]:
    with (FOLDER / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file, strict=True))


def datum(row: dict[str, str]) -> Datum:
    """Return the figure of a row that carries its own unit and kind."""
    return figure(row, name=row["name"], text=row["value"], unit=row["unit"],
                  kind=Kind[row["kind"].upper()])  # fmt: skip


def figure(row: dict[str, str], *, name: str, text: str, unit: str, kind: Kind) -> Datum:
    """Return the figure `text` of a row, in `unit`, with the row's source and evidence."""
    u = None if row["u"] == UNSTATED else float(row["u"]) * size(kind, unit)
    return Datum(
        name=name,
        value=to_si(float(text), kind, unit),
        u=u,
        kind=kind,
        unit=unit,
        printed=float(text),
        source=row["source"],
        locator=row["locator"],
        evidence=row["evidence"],
        note=row["note"],
        range=row.get("range", ""),
    )


def named(
    table: Mapping[str, One], name: str, missing: str, error: type[DataError] = NoDataInRange
) -> One:
    """Return what a table has under a name.

    Raises
    ------
    DataError
        `error`, when there is no such name: what is missing, and the nearest three.
    """
    try:
        return table[name]
    except KeyError:
        raise error(missing, got=name, fix=nearest(name, table)) from None
