"""Viscosity of the bench's liquids, from three published figures each."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from ozonewright.references.solvents import solvent
from ozonewright.references.tables import rows
from ozonewright.units import Kind, size
from ozonewright.units.table import to_si

MILLI = 1e-3


class Viscosities(NamedTuple):
    """Three temperatures with the viscosity at each, and what diffusion in the liquid needs."""

    temperatures: tuple[float, ...]
    """Rising. [K]"""
    viscosities: tuple[float, ...]
    """[Pa s]"""
    molar_mass: float
    """[kg/mol]"""
    association: float
    """Association factor of Wilke and Chang. [1]"""


@cache
def viscosities_of(name: str) -> Viscosities:
    """Return the figures of a liquid, whichever of its names it is.

    Raises
    ------
    UnknownSubstance
        No such liquid; the nearest three are told.
    """
    known = solvent(name).name
    (row,) = (row for row in rows("liquid_viscosity") if row["name"] == known)
    return Viscosities(
        tuple(to_si(float(row[f"t{n}"]), Kind.TEMPERATURE, "°C") for n in (1, 2, 3)),
        tuple(MILLI * float(row[f"viscosity{n}"]) for n in (1, 2, 3)),
        float(row["molar_mass"]) * size(Kind.MOLAR_MASS, "g/mol"),
        float(row["association"]),
    )
