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
class Reactant:
    """One substrate in the flask."""

    name: str
    amount: Measured
    """[mol]"""
    attacks: tuple[Attack, ...]


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
