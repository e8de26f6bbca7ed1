"""How fast ozone takes a solvent itself, where a figure is known."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.solvents import solvent
from ozonewright.references.tables import column_units, rows
from ozonewright.units import Kind, size
from ozonewright.units.table import to_si


@dataclass(frozen=True, slots=True)
class OzoneWithSolvent:
    """A rate constant of second order with its law of warmth; SI."""

    name: str
    rate_constant: float
    """[m3/(mol s)]"""
    temperature: float
    """At which it is known. [K]"""
    energy: float
    """Activation energy. [J/mol]"""
    u_energy: float
    source: str
    evidence: str
    note: str


@cache
def _table() -> dict[str, OzoneWithSolvent]:
    units = column_units("ozone_solvents")
    per_mole = size(Kind.MOLAR_ENERGY, units["energy"])
    return {
        row["name"]: OzoneWithSolvent(
            name=row["name"],
            rate_constant=to_si(float(row["k"]), Kind.RATE_CONSTANT, units["k"]),
            temperature=to_si(float(row["temperature"]), Kind.TEMPERATURE, units["temperature"]),
            energy=float(row["energy"]) * per_mole,
            u_energy=float(row["u_energy"]) * per_mole,
            source=row["source"],
            evidence=row["evidence"],
            note=row["note"],
        )
        for row in rows("ozone_solvents")
    }


def ozone_with(name: str) -> OzoneWithSolvent | None:
    """Return how fast ozone takes a solvent, by any of its names; None where nothing is known.

    Raises
    ------
    UnknownSubstance
        No such solvent; the nearest three are told.
    """
    return _table().get(solvent(name).name)
