"""A flow controller: it lets no more pass than its setting."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.physics.gas.parts.law import Gas


@dataclass(frozen=True, slots=True)
class Controller:
    """Wide open it is a valve; at its setting it takes whatever pressure there is to take."""

    most: float
    """Its setting. [mol/s]"""
    least_drop: float = 0.0
    """Loss that it needs to hold the setting. [Pa]"""
    one_way: bool = True

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before it that this flow needs at the least."""
        share = flow / self.most
        return outlet + self.least_drop * share * share
