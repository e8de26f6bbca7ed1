"""Waste streams of an ozonolysis: what makes each harmless, how much, and what it must not meet."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.tables import column_units, rows
from ozonewright.units import Kind
from ozonewright.units.table import to_si


@dataclass(frozen=True, slots=True)
class Waste:
    """One stream; SI."""

    stream: str
    of: str
    """What makes it: a quench by its first name, ``tail iodide``, or ``peroxide``."""
    neutraliser: str
    per_mole: float
    """Moles of neutraliser for each mole; zero where none is used. [1]"""
    molar_mass: float
    how: str
    never: str
    source: str
    evidence: str
    note: str


@cache
def wastes() -> tuple[Waste, ...]:
    """Return every shipped stream."""
    unit = column_units("waste")["molar_mass"]
    return tuple(
        Waste(
            stream=row["stream"],
            of=row["of"],
            neutraliser=row["neutraliser"],
            per_mole=float(row["per_mole"]),
            molar_mass=to_si(float(row["molar_mass"]), Kind.MOLAR_MASS, unit),
            how=row["how"],
            never=row["never"],
            source=row["source"],
            evidence=row["evidence"],
            note=row["note"],
        )
        for row in rows("waste")
    )


def waste_of(what: str) -> tuple[Waste, ...]:
    """Return the streams that come from a quench, from the tail, or from peroxide."""
    return tuple(one for one in wastes() if one.of == what)
