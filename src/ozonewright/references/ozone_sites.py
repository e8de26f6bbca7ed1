"""What ozone may attack in a structure, and in which order."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ozonewright.references.tables import rows

Act = Literal["alkene", "alkyne", "ring", "oxide", "none"]
"""What becomes of it: a double or triple bond or a ring is cleaved; an atom takes an oxygen."""


@dataclass(frozen=True, slots=True)
class SiteKind:
    """A kind of site: its pattern, and its place in the order of attack."""

    kind: str
    rank: int
    """The lower, the sooner ozone takes it."""
    on: Literal["bond", "ring", "atom"]
    act: Act
    smarts: str
    """Of a bond, its two atoms; of a ring, an atom that must be in it; of an atom, itself."""
    ozone: int | None
    """Ozone that it takes, each; none where it depends on the ring."""
    source: str
    locator: str
    evidence: str
    note: str


@cache
def site_kinds() -> tuple[SiteKind, ...]:
    """Return every kind; a bond or a ring belongs to the first whose pattern it fits."""
    return tuple(
        SiteKind(
            kind=row["kind"],
            rank=int(row["rank"]),
            on=row["on"],  # type: ignore[arg-type]
            act=row["acts"],  # type: ignore[arg-type]
            smarts=row["smarts"],
            ozone=int(row["ozone"]) if row["ozone"] else None,
            source=row["source"],
            locator=row["locator"],
            evidence=row["evidence"],
            note=row["note"],
        )
        for row in rows("ozone_sites")
    )
