"""Where a generator runs: what was set, in SI."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ozonewright.uncertain import Measured

Basis = Literal["plug", "discharge"]


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the map; None where nobody stated it."""

    flow: float
    """Dry feed. [mol/s]"""
    power: float | None
    power_at: Basis
    oxygen: float
    nitrogen: float
    water: float | None
    """For each mole of dry feed."""
    wall: float | None
    inlet: float
    pressure: float
    cooler: float = 0.0
    """How much cooler the wall is kept than it would be. [K]"""
    series: float = 1.0
    """Tubes one after another, each with its own power."""
    parallel: float = 1.0
    """Tubes side by side, the flow shared."""


@dataclass(frozen=True, slots=True)
class TubeRun:
    """A run with its output."""

    label: str
    setting: str | None
    point: Point
    rate: Measured
    """Ozone. [mol/s]"""
    cold: bool = False
    """Started cold, with a wall that nobody read."""
