"""The acids of the bench and how strong they are."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.errors import UnknownSubstance
from ozonewright.references.tables import named, rows


@dataclass(frozen=True, slots=True)
class Acid:
    """An acid with the pK of each proton, strongest first."""

    name: str
    formula: str
    pK: tuple[float, ...]
    u: float
    """One standard uncertainty of each pK."""
    source: str
    locator: str
    evidence: str
    note: str


@cache
def acids() -> dict[str, Acid]:
    """Return every shipped acid by name."""
    return {
        row["name"]: Acid(
            name=row["name"],
            formula=row["formula"],
            pK=tuple(float(row[key]) for key in ("pk1", "pk2", "pk3") if row[key]),
            u=float(row["u"]),
            source=row["source"],
            locator=row["locator"],
            evidence=row["evidence"],
            note=row["note"],
        )
        for row in rows("acids")
    }


def acid(name: str) -> Acid:
    """Return the acid of that name.

    Raises
    ------
    UnknownSubstance
        No such acid; the nearest three are told.
    """
    return named(acids(), name, "no shipped acid has this name", UnknownSubstance)
