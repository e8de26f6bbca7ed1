"""What every law of a part answers."""

from __future__ import annotations

from typing import NamedTuple, Protocol


class Gas(NamedTuple):
    """The gas in a part."""

    molar_mass: float
    """Of the wet gas. [kg/mol]"""
    viscosity: float
    """[Pa s]"""
    temperature: float
    """[K]"""
    wet: float = 1.0
    """Moles of wet gas for each mole of dry gas. [mol/mol]"""


class Law(Protocol):
    """A part as gas meets it."""

    @property
    def one_way(self) -> bool:
        """Whether gas can pass only from inlet to outlet."""

    @property
    def most(self) -> float:
        """The most flow it lets pass, whatever the pressure; infinite for most parts, in mol/s."""

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before the part, in Pa."""
