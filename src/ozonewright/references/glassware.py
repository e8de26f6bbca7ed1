"""Tolerances of volumetric glassware by piece, capacity, class and standard."""

from __future__ import annotations

from functools import cache

from ozonewright.errors import NoDataInRange, nearest
from ozonewright.references.tables import Datum, column_units, figure, rows
from ozonewright.units import Kind, number, size

_Key = tuple[str, str, str, float]
SAME_AS = {"AS": "A"}
"""Class AS differs from A in delivery time alone."""


@cache
def _tolerances() -> dict[_Key, Datum]:
    units = column_units("glassware")
    step = size(Kind.VOLUME, units["capacity"])
    found: dict[_Key, Datum] = {}
    for row in rows("glassware"):
        capacity = float(row["capacity"]) * step
        key = (row["piece"], row["standard"], row["grade"], capacity)
        name = f"{row['piece']} {row['capacity']} {units['capacity']} class {row['grade']}"
        found[key] = figure(
            row, name=name, text=row["tolerance"], unit=units["tolerance"], kind=Kind.VOLUME
        )
    return found


def pieces() -> tuple[str, ...]:
    """Return the kinds of glassware the table knows."""
    return tuple(dict.fromkeys(key[0] for key in _tolerances()))


def capacities(piece: str, grade: str = "A", standard: str = "ISO") -> tuple[float, ...]:
    """Return the capacities in m³ for which a tolerance is known, smallest first."""
    wanted = (piece, standard, SAME_AS.get(grade, grade))
    return tuple(sorted(key[3] for key in _tolerances() if key[:3] == wanted))


def tolerance(piece: str, capacity_m3: float, grade: str, standard: str = "ISO") -> Datum:
    """Return the largest permitted error (±, in m³) of a piece of glassware.

    Raises
    ------
    NoDataInRange
        Unknown piece, class, standard or capacity; the nearest are told.
    """
    _check("piece of glassware", piece, pieces())
    _check("standard", standard, {key[1] for key in _tolerances()})
    _check("class of glassware", grade, {*SAME_AS, *(key[2] for key in _tolerances())})
    known = capacities(piece, grade, standard)
    closest = sorted(known, key=lambda capacity: abs(capacity - capacity_m3))
    if abs(closest[0] - capacity_m3) > 1e-6 * closest[0]:
        near = ", ".join(_millilitres(capacity) for capacity in sorted(closest[:3]))
        raise NoDataInRange(
            f"no {standard} tolerance is known for a {piece} of this capacity",
            got=_millilitres(capacity_m3),
            fix=f'Nearest capacities: {near}. Or state the uncertainty, as in "± 0.03 mL".',
        )
    return _tolerances()[(piece, standard, SAME_AS.get(grade, grade), closest[0])]


def _check(what: str, given: str, known: tuple[str, ...] | set[str]) -> None:
    if given not in known:
        raise NoDataInRange(f"no such {what} in the table", got=given, fix=nearest(given, known))


def _millilitres(volume: float) -> str:
    return f"{number(volume, Kind.VOLUME, 'mL'):g} mL"
