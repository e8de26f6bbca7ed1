"""The pattern and the tube as the duty question takes them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from ozonewright.questions.duty.bodies import Bodies, Pair
from ozonewright.questions.duty.cooling import Fan
from ozonewright.references.constants import M_O3
from ozonewright.results import Note
from ozonewright.uncertain import Measured
from ozonewright.units import Kind, size

MINUTE = size(Kind.TIME, "min")
STATES = ("cold", "warm")
"""In place of a temperature: the tube at the ambient, or after it has run on."""


@dataclass(frozen=True, slots=True)
class Falling:
    """How the output hangs on the temperature of the tube."""

    coefficient: Measured
    """Of the output, as a share of it at `at`; negative where it falls. [1/K]"""
    at: Measured | Literal["cold", "warm"]
    """The temperature of the tube to which the output belongs. [K]"""
    correlation: Mapping[Pair, float] = field(default_factory=dict)
    """Of the coefficient with the output."""
    of: str = "typed"
    """Where it is known from: ``typed``, or ``generator``."""


@dataclass(frozen=True, slots=True)
class Wet:
    """The solvent that the gas passes through."""

    name: str
    fraction: Measured
    """Vapour in the gas that leaves. [1]"""
    molar_mass: float


@dataclass(frozen=True, slots=True)
class Timer:
    """The pattern and what is known of the tube; None means not stated."""

    on: Measured
    off: Measured
    bodies: Bodies
    rate: Measured | None = None
    """Ozone while the discharge is on. [kg/s or mol/s]"""
    falling: Falling | None = None
    limit: Measured | None = None
    flow: Measured | None = None
    """Gas, as a normal flow. [mol/s]"""
    gas: Literal["runs on", "stops"] | None = None
    """Whether the gas runs on while the discharge is off."""
    notes: tuple[Note, ...] = ()
    """What is to be said of the output that was given."""
    fan: Fan | None = None
    wet: Wet | None = None

    @property
    def per(self) -> float:
        """Mass of ozone for a unit of the rate."""
        return M_O3 if self.rate is not None and self.rate.kind is Kind.AMOUNT_RATE else 1.0

    @property
    def warm_known(self) -> bool:
        """Whether the temperature of the tube can be told."""
        return bool(self.bodies.rises) and self.bodies.ambient is not None

    @property
    def falls(self) -> bool:
        """Whether the output is worked out against the temperature of the tube."""
        return self.rate is not None and self.falling is not None and self.warm_known

    @property
    def heated(self) -> bool:
        """Whether all is known that a longest on-time rests on."""
        return self.warm_known and self.limit is not None

    @property
    def correlation(self) -> dict[Pair, float]:
        """What is known of inputs that hang together."""
        return {**self.bodies.correlation, **(self.falling.correlation if self.falling else {})}

    def inputs(self) -> dict[str, Measured]:
        """Return what is known, by the names of the calculation."""
        at = self.falling.at if self.falling else None
        every = {
            "on": self.on,
            "off": self.off,
            "rate": self.rate,
            "coefficient": self.falling.coefficient if self.falling else None,
            "at": at if isinstance(at, Measured) else None,
            "ambient": self.bodies.ambient,
            "limit": self.limit,
            "flow": self.flow,
            "vapour": self.wet.fraction if self.wet else None,
            **{f"tau_{k}": one for k, one in enumerate(self.bodies.time_constants)},
            **{f"rise_{k}": one for k, one in enumerate(self.bodies.rises)},
        }
        return {name: value for name, value in every.items() if value is not None}


def series(v: Mapping[str, Any], name: str) -> list[Any]:
    """Return the rises or the time constants of a calculation's inputs, in order."""
    return [v[key] for key in sorted(v) if key.startswith(f"{name}_")]
