"""What generators have been published to give per energy, and in what strength."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.tables import rows
from ozonewright.units import Kind
from ozonewright.units.table import to_si


@dataclass(frozen=True, slots=True)
class Published:
    """One published band, in SI."""

    name: str
    low: float
    high: float
    kind: Kind
    feed: str
    """``air`` or ``oxygen``."""
    source: str
    evidence: str


@cache
def published() -> tuple[Published, ...]:
    """Return every published band."""
    return tuple(
        Published(
            name=row["name"],
            low=to_si(float(row["low"]), kind, row["unit"]),
            high=to_si(float(row["high"]), kind, row["unit"]),
            kind=kind,
            feed=row["feed"],
            source=row["source"],
            evidence=row["evidence"],
        )
        for row in rows("yields_published")
        for kind in (Kind[row["kind"].upper()],)
    )
