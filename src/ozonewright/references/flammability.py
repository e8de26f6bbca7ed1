"""When vapour burns: flammable limits, flash and ignition points, each source beside the other."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Literal

from ozonewright.references.tables import EVIDENCE, column_units, rows
from ozonewright.references.vapour import first_name
from ozonewright.units import Kind
from ozonewright.units.table import to_si

Medium = Literal["air", "oxygen"]


@dataclass(frozen=True, slots=True)
class Flammability:
    """What one source says of one substance in one medium; SI, None where it says nothing."""

    name: str
    medium: Medium
    burns: bool
    lower: float | None
    upper: float | None
    flash_point: float | None
    ignition: float | None
    source: str
    locator: str
    evidence: str
    note: str


@dataclass(frozen=True, slots=True)
class Limits:
    """What counts for a judgement: of several sources the one that is least on our side."""

    burns: bool | None
    """None: nothing is known of it in this medium."""
    lower: float | None
    upper: float | None
    """None: no upper limit is counted, so everything above the lower one is inside."""
    flash_point: float | None
    ignition: float | None
    evidence: str
    rows: tuple[Flammability, ...]


@cache
def _rows() -> tuple[Flammability, ...]:
    units = column_units("flammability")
    return tuple(_row(row, units) for row in rows("flammability"))


def _row(row: dict[str, str], units: dict[str, str]) -> Flammability:
    def figure(name: str, kind: Kind) -> float | None:
        return to_si(float(row[name]), kind, units[name]) if row[name] else None

    return Flammability(
        name=row["name"],
        medium=row["medium"],  # type: ignore[arg-type]  # the words of the table are tested
        burns=row["burns"] == "yes",
        lower=figure("lower", Kind.MOLE_FRACTION),
        upper=figure("upper", Kind.MOLE_FRACTION),
        flash_point=figure("flash_point", Kind.TEMPERATURE),
        ignition=figure("ignition", Kind.TEMPERATURE),
        source=row["source"],
        locator=row["locator"],
        evidence=row["evidence"],
        note=row["note"],
    )


def flammability(name: str, medium: Medium) -> Limits:
    """Return the limits that count for a substance in air or in oxygen; nothing known is no limit.

    In oxygen the lower limit is about that of air (common practice), so the lower of the two
    counts; the upper one is far above that of air and counts only where a row states it.
    """
    mine = tuple(row for row in _rows() if row.name == first_name(name))
    told = tuple(row for row in mine if row.medium == medium)
    burning = tuple(row for row in mine if row.burns)
    counted = burning if medium == "oxygen" else tuple(row for row in told if row.burns)
    burns: bool | None = True if counted else False if told else None
    uppers = [row.upper for row in told if row.upper is not None]
    return Limits(
        burns=burns,
        lower=_least(row.lower for row in counted),
        upper=max(uppers) if uppers else None,
        flash_point=_least(row.flash_point for row in counted),
        ignition=_least(row.ignition for row in counted),
        evidence=_worst(row.evidence for row in counted or told),
        rows=told or mine,
    )


def _least(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return min(known) if known else None


def _worst(grades: Iterable[str]) -> str:
    return max(grades, key=EVIDENCE.index, default="")
