"""What each group of a molecule adds to its boiling point."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.tables import column_units, rows
from ozonewright.units import Kind, size


@dataclass(frozen=True, slots=True)
class BoilingGroup:
    """One group: a pattern, sought in the order of the table, and its share."""

    name: str
    pattern: str
    """SMARTS."""
    share: float
    """[K]"""


@cache
def boiling_groups() -> tuple[BoilingGroup, ...]:
    """Return the groups in the order in which they are sought: large ones first."""
    kelvin = size(Kind.TEMPERATURE_DIFFERENCE, column_units("boiling_groups")["value"])
    return tuple(
        BoilingGroup(row["group"], row["smarts"], kelvin * float(row["value"]))
        for row in rows("boiling_groups")
    )
