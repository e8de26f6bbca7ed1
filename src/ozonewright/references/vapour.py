"""Vapour pressures of the solvents, and of liquid ozone: coefficients, range and doubt."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ozonewright.errors import UnknownSubstance, nearest
from ozonewright.references.solvents import solvent, solvents
from ozonewright.references.tables import column_units, rows
from ozonewright.units import Kind
from ozonewright.units.table import to_si


@dataclass(frozen=True, slots=True)
class VapourPressure:
    """The equation of one substance; SI."""

    name: str
    form: Literal["wagner25", "dippr101"]
    freezes: float
    """Below it the substance is solid, and the equation means nothing. [K]"""
    critical_temperature: float
    critical_pressure: float | None
    coefficients: tuple[float, ...]
    u: float
    """Relative standard uncertainty at 0 °C and above. [1]"""
    u_cold: float
    """The same at `cold`; between, it is taken as straight. [1]"""
    cold: float
    source: str
    locator: str
    evidence: str
    note: str


@cache
def _table() -> dict[str, VapourPressure]:
    units = column_units("vapour")
    return {row["name"]: _row(row, units) for row in rows("vapour")}


def _row(row: dict[str, str], units: dict[str, str]) -> VapourPressure:
    def kelvin(name: str) -> float:
        return to_si(float(row[name]), Kind.TEMPERATURE, units[name])

    pressure = row["critical_pressure"]
    return VapourPressure(
        name=row["name"],
        form=row["form"],  # type: ignore[arg-type]  # the words of the table are tested
        freezes=kelvin("freezes"),
        critical_temperature=kelvin("critical_temperature"),
        critical_pressure=to_si(float(pressure), Kind.PRESSURE, units["critical_pressure"])
        if pressure
        else None,
        coefficients=tuple(float(row[name]) for name in "abcde" if row[name]),
        u=to_si(float(row["u"]), Kind.SHARE, units["u"]),
        u_cold=to_si(float(row["u_cold"]), Kind.SHARE, units["u_cold"]),
        cold=kelvin("cold"),
        source=row["source"],
        locator=row["locator"],
        evidence=row["evidence"],
        note=row["note"],
    )


def vapour_pressure_data(name: str) -> VapourPressure:
    """Return the equation of a substance, whichever of its names is given.

    Raises
    ------
    UnknownSubstance
        No equation is shipped for it; the nearest three names are told.
    """
    found = _table().get(first_name(name))
    if found is None:
        raise UnknownSubstance(
            "no vapour pressure is shipped for this substance",
            got=name,
            fix=nearest(name, _table()),
        )
    return found


def first_name(name: str) -> str:
    """Return the name that the tables use for a substance."""
    wanted = name.strip().casefold()
    also = {one.casefold() for found in solvents().values() for one in (found.name, *found.also)}
    return solvent(name).name if wanted in also else wanted
