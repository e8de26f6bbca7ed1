"""Published rate constants of ozone with organic compounds in solution."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.tables import EVIDENCE, Datum, column_units, figure, rows
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Rate:
    """Rate constant of one compound, and the site of it that reacts."""

    compound: str
    smiles: str
    kind: str
    groups: int | None
    """Groups other than hydrogen on the double bond; none where their number does not matter."""
    stands_for_kind: bool
    """Whether it gives the scale for other compounds with such a site."""
    medium: str
    temperature: str
    datum: Datum


@cache
def ozone_rates() -> tuple[Rate, ...]:
    """Return every rate constant, those with the best evidence first."""
    unit = column_units("ozone_rates")["k"]
    found = [
        Rate(
            compound=row["compound"],
            smiles=row["smiles"],
            kind=row["kind"],
            groups=int(row["groups"]) if row["groups"] else None,
            stands_for_kind=row["stands_for"] == "its kind",
            medium=row["medium"],
            temperature=row["temperature"],
            datum=figure(row, name=row["compound"], text=row["k"], unit=unit,
                         kind=Kind.RATE_CONSTANT),
        )
        for row in rows("ozone_rates")
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda rate: EVIDENCE.index(rate.datum.evidence)))
