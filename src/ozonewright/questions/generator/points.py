"""Where a generator runs: what was set, in SI."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
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
    plug: Measured | None = None
    """Power, where both are known of the run. [W]"""
    discharge: Measured | None = None


@dataclass(frozen=True, slots=True)
class Wish:
    """What is wanted; SI, money in one currency."""

    kind: Literal["concentration", "output", "cost"]
    wanted: float = 0.0
    """Concentration in kg/mol of ozonised gas, or output in kg/s."""
    gas_price: float = 0.0
    """For each mole of feed."""
    energy_price: float = 0.0
    """For each joule."""
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Price:
    """What a change costs."""

    amount: float
    currency: str


@dataclass(frozen=True, slots=True)
class Pattern:
    """A timer's pattern, and how warm the tube is under it once it repeats itself."""

    on: float
    off: float
    trough: float
    mean: float
    """Over the on-times: the wall of the place asked for. [K]"""
    peak: float

    @property
    def share(self) -> float:
        """Of the clock with the discharge on."""
        return self.on / (self.on + self.off)


@dataclass(frozen=True, slots=True)
class Question:
    """The runs, where it is asked, and what is wished."""

    runs: Sequence[TubeRun]
    point: Point
    setting: str | None = None
    asked: str | None = None
    left_out: Mapping[str, str] = field(default_factory=dict)
    """Runs that could not be used, and the place of what they lack."""
    prices: Mapping[str, Price] = field(default_factory=dict)
    wishes: Sequence[Wish] = ()
    pattern: Pattern | None = None
    walls_from: Mapping[str, str] = field(default_factory=dict)
    """Runs whose tube temperature was not typed, and where it is known from."""
