"""The solvents of the bench: when they freeze and boil, what they weigh, what heat they hold."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ozonewright.errors import UnknownSubstance, nearest
from ozonewright.references.tables import column_units, rows
from ozonewright.units import Kind
from ozonewright.units.table import to_si

Reacts = Literal["no", "slowly", "yes"]


@dataclass(frozen=True, slots=True)
class Solvent:
    """A solvent in SI; density and heat capacity at 25 °C."""

    name: str
    formula: str
    cas: str
    also: tuple[str, ...]
    """Other names it answers to."""
    melting_point: float
    boiling_point: float
    density: float
    """[kg/m3]"""
    heat_capacity: float
    """[J/(kg K)]"""
    alcohol: str | None
    """SMILES of an alcohol: it takes the carbonyl oxide, and alkoxy hydroperoxides form."""
    reacts: Reacts
    """Whether ozone takes the solvent itself."""
    source: str
    locator: str
    evidence: str
    note: str


COLUMNS = {
    "melting_point": Kind.TEMPERATURE,
    "boiling_point": Kind.TEMPERATURE,
    "density": Kind.MASS_CONCENTRATION,
    "heat_capacity": Kind.SPECIFIC_HEAT,
}
"""Columns that hold a figure, in the unit of line 2."""


@cache
def solvents() -> dict[str, Solvent]:
    """Return every shipped solvent by its first name."""
    units = column_units("solvents")
    return {row["name"]: _solvent(row, units) for row in rows("solvents")}


def _solvent(row: dict[str, str], units: dict[str, str]) -> Solvent:
    figures = {name: to_si(float(row[name]), kind, units[name]) for name, kind in COLUMNS.items()}
    return Solvent(
        name=row["name"],
        formula=row["formula"],
        cas=row["cas"],
        also=tuple(name for name in row["also"].split(";") if name),
        alcohol=None if row["traps_oxide"] == "no" else row["traps_oxide"],
        reacts=row["reacts"],  # type: ignore[arg-type]  # the words of the table are tested
        source=row["source"],
        locator=row["locator"],
        evidence=row["evidence"],
        note=row["note"],
        **figures,
    )


def solvent(name: str) -> Solvent:
    """Return the solvent of that name, whichever of its names it is.

    Raises
    ------
    UnknownSubstance
        No such solvent; the nearest three are told.
    """
    wanted = name.strip().casefold()
    for found in solvents().values():
        if wanted in (found.name.casefold(), *(one.casefold() for one in found.also)):
            return found
    names = [one for found in solvents().values() for one in (found.name, *found.also)]
    raise UnknownSubstance("no shipped solvent has this name", got=name, fix=nearest(name, names))
