"""What is known of a gas supply and its prices; SI, None where nothing was stated."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ozonewright.uncertain import Measured

RestGas = Literal["runs", "stops"]


@dataclass(frozen=True, slots=True)
class Bottled:
    """A pressure of a cylinder as stated: gauge or absolute. [Pa]"""

    value: Measured
    gauge: bool


@dataclass(frozen=True, slots=True)
class Rest:
    """How the discharge is timed: on, off, and whether the gas runs on meanwhile. [s]"""

    on: float
    off: float
    gas: RestGas | None = None

    @property
    def duty(self) -> float:
        """Share of the clock with the discharge on. [1]"""
        return self.on / (self.on + self.off)


@dataclass(frozen=True, slots=True)
class Money:
    """Prices, all in one currency, which is text."""

    currency: str = ""
    price: float | None = None
    """Of a full cylinder's gas."""
    hardware: float | None = None
    """Regulator, hoses, fittings: bought once."""
    hardware_life: float | None = None
    """Hours of gas over which it is spread. [s]"""
    rent: float | None = None
    """Of the cylinder, a year."""
    use: float | None = None
    """Gas time in a year, over which the rent is spread. [s]"""
    deposit: float | None = None
    """Comes back with the cylinder."""
    energy: float | None = None
    """A joule from the plug. [1/J]"""
    concentrator: float | None = None
    second_tube: float | None = None


@dataclass(frozen=True, slots=True)
class Supply:
    """A cylinder, what is drawn from it, and what that costs."""

    gas: str
    volume: Measured
    """Water capacity. [m3]"""
    pressure: Bottled
    flow: Measured
    """Normal flow [mol/s], or true flow at the temperature and pressure beside it [m3/s]."""
    temperature: Measured | None = None
    ambient: Measured | None = None
    reserve: Bottled | None = None
    full: Bottled | None = None
    """Pressure of the full cylinder that the price buys."""
    output: Measured | None = None
    """Ozone while the discharge is on. [mol/s]"""
    rest: Rest | None = None
    money: Money = field(default_factory=Money)
    concentrator_power: float | None = None
    concentrator_output: float | None = None
    """Ozone with concentrator oxygen. [mol/s]"""
    second_tube_power: float | None = None
    second_tube_output: float | None = None
    """Ozone of both tubes at the same flow. [mol/s]"""
