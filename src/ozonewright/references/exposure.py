"""Exposure limits for ozone in air, by jurisdiction. The person chooses; none is a default."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.errors import InputError, nearest
from ozonewright.references.tables import Datum, figure, rows
from ozonewright.units import Kind, parse


@dataclass(frozen=True, slots=True)
class ExposureLimit:
    """A limit for ozone in the air that people breathe."""

    name: str
    value: float
    """Mole fraction, or mass per volume where a person typed it so."""
    kind: Kind
    average: float | None
    """Time over which the mean counts, in seconds; None: never to be passed."""
    basis: str
    dated: str
    own: bool = False
    """Typed by the person, not taken from the table."""
    datum: Datum | None = None


@cache
def exposure_limits() -> dict[str, ExposureLimit]:
    """Return every shipped limit by its name."""
    return {row["name"]: _limit(row) for row in rows("exposure_limits")}


def _limit(row: dict[str, str]) -> ExposureLimit:
    found = figure(
        row, name=row["name"], text=row["value"], unit=row["unit"], kind=Kind.MOLE_FRACTION
    )
    return ExposureLimit(
        name=row["name"],
        value=found.value,
        kind=Kind.MOLE_FRACTION,
        average=parse(row["average"], Kind.TIME) if row["average"] else None,
        basis=row["basis"],
        dated=row["dated"],
        datum=found,
    )


def exposure_limit(name: str) -> ExposureLimit:
    """Return the limit of a jurisdiction; the case of letters does not matter.

    Raises
    ------
    InputError
        No such name; the nearest ones are told.
    """
    known = exposure_limits()
    wanted = name.strip().casefold()
    for full, limit in known.items():
        if wanted == full.casefold():
            return limit
    holding = [full for full in known if wanted and wanted in full.casefold()]
    if len(holding) == 1:
        return known[holding[0]]
    fix = f"Nearest: {'; '.join(holding)}." if holding else nearest(name, known)
    raise InputError(
        "no limit of this name is shipped" if not holding else "this may be several limits",
        got=name,
        fix=f'{fix} Or type your own: "0.1 ppm".',
    )
