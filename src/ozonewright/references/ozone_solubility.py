"""Solubility of ozone: published sets for water, and bands for other liquids."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.tables import Datum, datum, named, rows

OTHER = "any other"
"""The row that serves where a liquid has none of its own."""


@dataclass(frozen=True, slots=True)
class HenrySet:
    """One published Henry constant of ozone in water, with its slope."""

    name: str
    henry: float
    """At 25 °C. [mol/(m3 Pa)]"""
    slope: float
    """d ln H/d(1/T). [K]"""
    note: str


@dataclass(frozen=True, slots=True)
class Band:
    """Within which the ratio of ozone in an organic liquid to that in the gas is thought to lie."""

    medium: str
    low: float
    high: float
    """At 20 °C. [1]"""
    cold_low: float
    cold_high: float
    """How many times as much at -78 °C. [1]"""
    known: bool
    """Whether the liquid has a figure of its own."""


@cache
def henry_sets() -> tuple[HenrySet, ...]:
    """Return the sets for water that agree among each other and state a slope."""
    return tuple(
        HenrySet(row["set"], float(row["henry"]), float(row["slope"]), row["note"])
        for row in rows("ozone_solubility")
        if row["outlier"] == "no"
    )


@cache
def solubility_band(medium: str) -> Band:
    """Return the band of an organic liquid: its own, or the one for any other."""
    table = {row["medium"]: row for row in rows("ozone_solubility_organic")}
    row = table.get(medium, table[OTHER])
    return Band(
        medium,
        low=float(row["low"]),
        high=float(row["high"]),
        cold_low=float(row["cold_low"]),
        cold_high=float(row["cold_high"]),
        known=medium in table,
    )


@cache
def _absorption() -> dict[str, Datum]:
    return {row["name"]: datum(row) for row in rows("absorption")}


def absorption(name: str) -> Datum:
    """Return a figure of absorption by name, such as ``KL_SPREAD``.

    Raises
    ------
    NoDataInRange
        No such figure; the nearest three are told.
    """
    return named(_absorption(), name, "no figure of absorption has this name")
