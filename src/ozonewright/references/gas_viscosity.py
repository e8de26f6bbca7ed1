"""Viscosity of each gas of a feed: its figure at 0 °C and how it grows with temperature."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from ozonewright.references.tables import rows

MICRO = 1e-6


class Viscosity(NamedTuple):
    """The two figures of Sutherland's equation."""

    at_zero: float
    """At 0 °C. [Pa s]"""
    sutherland: float
    """[K]"""


@cache
def viscosities() -> dict[str, Viscosity]:
    """Return the figures of every gas by name; water is its vapour."""
    return {
        row["name"]: Viscosity(MICRO * float(row["viscosity"]), float(row["sutherland"]))
        for row in rows("gas_viscosity")
    }
