"""Real-gas factors of the gases that come in cylinders: a grid made from CoolProp."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.errors import UnknownSubstance
from ozonewright.references.tables import named, rows
from ozonewright.units import Kind
from ozonewright.units.table import to_si


@dataclass(frozen=True, slots=True)
class Grid:
    """Factors p V/(n R T) on even steps of temperature and absolute pressure; SI."""

    gas: str
    temperatures: tuple[float, ...]
    pressures: tuple[float, ...]
    factors: tuple[tuple[float, ...], ...]
    """A line for each temperature."""
    source: str
    locator: str


@cache
def _grids() -> dict[str, Grid]:
    by_gas: dict[str, list[dict[str, str]]] = {}
    for row in rows("cylinder_gas"):
        by_gas.setdefault(row["gas"], []).append(row)
    return {gas: _grid(gas, found) for gas, found in by_gas.items()}


def _grid(gas: str, found: list[dict[str, str]]) -> Grid:
    lines: dict[str, list[float]] = {}
    for row in found:
        lines.setdefault(row["temperature"], []).append(float(row["factor"]))
    pressures = dict.fromkeys(row["pressure"] for row in found)
    return Grid(
        gas=gas,
        temperatures=tuple(to_si(float(text), Kind.TEMPERATURE, "°C") for text in lines),
        pressures=tuple(to_si(float(text), Kind.PRESSURE, "bar") for text in pressures),
        factors=tuple(tuple(line) for line in lines.values()),
        source=found[0]["source"],
        locator=found[0]["locator"],
    )


def cylinder_gases() -> tuple[str, ...]:
    """Return the names of the gases."""
    return tuple(_grids())


def cylinder_gas(name: str) -> Grid:
    """Return the factors of a gas.

    Raises
    ------
    UnknownSubstance
        No such gas; those that there are are told.
    """
    return named(_grids(), name, "no real-gas table is shipped for this gas", UnknownSubstance)
