"""What bubbles have to work against: density and surface tension of the bench's liquids."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from ozonewright.references.solvents import solvent
from ozonewright.references.tables import rows

MILLI = 1e-3
DENSITY_AT = 298.15
"""Temperature of the densities in the table of solvents. [K]"""
SURFACE_AT = 293.15
"""Temperature of the surface tensions. [K]"""


class Liquid(NamedTuple):
    """Density and surface tension, each with its slope."""

    name: str
    density: float
    """At 25 °C. [kg/m3]"""
    density_slope: float
    """[kg/(m3 K)]"""
    surface_tension: float
    """At 20 °C. [N/m]"""
    surface_slope: float
    """[N/(m K)]"""


@cache
def _surfaces() -> dict[str, dict[str, str]]:
    return {row["name"]: row for row in rows("liquid_surface")}


def liquid(name: str) -> Liquid:
    """Return the figures of a liquid, whichever of its names it is.

    Raises
    ------
    UnknownSubstance
        No such liquid; the nearest three are told.
    """
    known = solvent(name)
    row = _surfaces()[known.name]
    return Liquid(
        name=known.name,
        density=known.density,
        density_slope=float(row["density_slope"]),
        surface_tension=MILLI * float(row["surface_tension"]),
        surface_slope=MILLI * float(row["surface_slope"]),
    )
