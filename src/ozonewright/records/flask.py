"""A reaction as its kinetics see it."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class Attack:
    """One kind of site of a substrate."""

    count: int
    rate_constant: float | None
    """[m3/(mol s)]"""
    in_water: bool
    ring: bool
    exact: bool
    """Whether the constant is that of this very compound."""
    wanted: bool


@dataclass(frozen=True, slots=True)
class Volatile:
    """How readily a substance leaves with the gas, by one of the two."""

    boiling_point: Measured | None = None
    """[K]"""
    vapour_pressure: Measured | None = None
    """Of the pure substance at the flask's temperature. [Pa]"""
    donates: bool = False
    """Whether hydrogen bonds hold it together."""
    estimated: bool = False
    """Whether its boiling point is worked out from the structure."""


@dataclass(frozen=True, slots=True)
class Reactant:
    """One substrate in the flask."""

    name: str
    amount: Measured
    """[mol]"""
    attacks: tuple[Attack, ...]
    substrate: Volatile | None = None
    """None where nothing tells how readily it leaves."""
    product: Volatile | None = None


@dataclass(frozen=True, slots=True)
class Flasked:
    """What is in the flask, and at what warmth."""

    label: str | None
    solvent: str
    mixed: bool
    """Whether other solvents are in it too."""
    volume: Measured
    temperature: Measured
    reactants: tuple[Reactant, ...]
    trap: float | None = None
    """Liquid of the tail bottle behind the flask. [m3]"""
