"""What the clearance answers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ozonewright.results import Note, Result, Row, fact, listing, quantity
from ozonewright.units import Kind


@dataclass(frozen=True, kw_only=True)
class TestRow(Row):
    """One peroxide test, and whether it counts."""

    when: datetime | None = fact("when")
    reading: str = fact("reading", "")
    method: str | None = fact("method")
    by: str | None = fact("by")
    counts: bool = fact("counts", False)


@dataclass(frozen=True, kw_only=True)
class WasteRow(Row):
    """One waste stream and what makes it harmless."""

    stream: str = fact("stream", "")
    amount: float | None = quantity(
        Kind.AMOUNT, "mmol", "to be made harmless, at the most", stem="amount", exact=True
    )
    neutraliser: str = fact("neutraliser", "")
    mass: float | None = quantity(
        Kind.MASS, "g", "neutraliser, at the least", stem="neutraliser", exact=True
    )
    how: str = fact("how", "")
    never: str = fact("never with", "")
    evidence: str = fact("evidence", "")


@dataclass(frozen=True, kw_only=True)
class Clearance(Result):
    """Locked or clear, why, and what is needed."""

    reaction: str = fact("reaction", "")
    state: str = fact("state", "locked")
    why: Note | None = fact("why")
    needed: tuple[Note, ...] = fact("needed", ())
    quenched: datetime | None = fact("quench added")
    ready: datetime | None = fact("quench done")
    tests: tuple[TestRow, ...] = listing("peroxide tests")
    waste: tuple[WasteRow, ...] = listing("waste")
