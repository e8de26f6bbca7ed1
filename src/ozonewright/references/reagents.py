"""The reagents that end the peroxides after an ozonolysis: how much, what they turn into."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.errors import UnknownSubstance, nearest
from ozonewright.references.tables import column_units, rows
from ozonewright.units import Kind
from ozonewright.units.table import to_si


@dataclass(frozen=True, slots=True)
class Reagent:
    """A quench; equivalents are moles for each mole of ozone taken up. SI."""

    name: str
    formula: str
    also: tuple[str, ...]
    molar_mass: float
    density: float | None
    """Of the liquid, or of the solution as bought. [kg/m3]"""
    strength: float | None
    """Mass fraction of the solution as bought, where it is one. [1]"""
    work_ups: tuple[str, ...]
    low: float
    high: float
    """The usual equivalents lie between. [1]"""
    by_product: str
    by_molar_mass: float
    by_per_ozone: float
    """Moles of by-product for each mole of ozone taken up. [1]"""
    hydrogen: float
    """Moles of hydrogen that a mole of it gives at the most. [1]"""
    flash_point: float | None
    waiting: float
    """How long it usually takes. [s]"""
    evidence: str
    note: str


FIGURES = {
    "molar_mass": Kind.MOLAR_MASS,
    "density": Kind.MASS_CONCENTRATION,
    "strength": Kind.MASS_FRACTION,
    "by_molar_mass": Kind.MOLAR_MASS,
    "flash_point": Kind.TEMPERATURE,
    "waiting": Kind.TIME,
}
"""Columns that hold a figure with a unit; a cell may be empty."""
PLAIN = ("low", "high", "by_per_ozone", "hydrogen")


@cache
def reagents() -> dict[str, Reagent]:
    """Return every shipped quench by its first name."""
    units = column_units("reagents")
    return {row["name"]: _reagent(row, units) for row in rows("reagents")}


def _reagent(row: dict[str, str], units: dict[str, str]) -> Reagent:
    figures = {
        name: to_si(float(row[name]), kind, units[name]) if row[name] else None
        for name, kind in FIGURES.items()
    }
    return Reagent(
        name=row["name"],
        formula=row["formula"],
        also=tuple(name for name in row["also"].split(";") if name),
        work_ups=tuple(row["work_ups"].split(";")),
        by_product=row["by_product"],
        evidence=row["evidence"],
        note=row["note"],
        **figures,  # type: ignore[arg-type]  # which cells are filled is tested
        **{name: float(row[name]) for name in PLAIN},
    )


def reagent(name: str) -> Reagent:
    """Return the quench of that name, whichever of its names it is.

    Raises
    ------
    UnknownSubstance
        No such quench; the nearest three are told.
    """
    wanted = name.strip().casefold()
    for found in reagents().values():
        if wanted in (one.casefold() for one in (found.name, *found.also)):
            return found
    names = [one for found in reagents().values() for one in (found.name, *found.also)]
    raise UnknownSubstance("no shipped quench has this name", got=name, fix=nearest(name, names))
