"""Suppliers: the pressure that stands at the outlet of a pump, a regulator, a concentrator."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Protocol

from ozonewright.physics.gas.parts.amounts import volume_flow
from ozonewright.physics.gas.parts.law import Gas

LEAST_FALL = 1e-4
"""Where a curve keeps its flow over a range of pressure, it is let fall by this share of it."""


def falling(*, curve: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """Curve of a pump whose flow falls at every step, if only by a ten-thousandth.

    Parameters
    ----------
    curve : tuple of (float, float)
        Gauge pressure, rising, and flow, never rising, at the room's conditions. [-]

    Returns
    -------
    curve : tuple of (float, float)
        The same, level pieces let fall by 0.01 % of the first flow. [-]

    Raises
    ------
    None

    Valid
    -----
    Curves that fall somewhere.

    Source
    ------
    pump_practice

    Notes
    -----
    On a level piece the pressure would not follow from the flow.
    """
    least = LEAST_FALL * curve[0][1]
    found = [curve[0]]
    for pressure, flow in curve[1:]:
        found.append((pressure, min(flow, found[-1][1] - least)))
    return tuple(found)


class Supply(Protocol):
    """A supplier as the line meets it."""

    @property
    def most(self) -> float:
        """The most flow it gives, whatever the pressure; infinite for most, in mol/s."""

    @property
    def shut_off(self) -> float:
        """Absolute pressure at its outlet when that is shut, in Pa."""

    def outlet(self, flow: float, gas: Gas) -> float:
        """Return the absolute pressure at its outlet, in Pa."""


@dataclass(frozen=True, slots=True)
class Pump:
    """Room air, taken in at the room's pressure and given out along a curve."""

    curve: tuple[tuple[float, float], ...]
    """Gauge pressure, rising, and flow at the room's conditions, falling. [Pa, m3/s]"""
    ambient: float
    """Pressure of the room, in Pa."""
    room_temperature: float
    most: float = float("inf")

    @property
    def shut_off(self) -> float:
        """Pressure at which the flow ends."""
        return self.outlet(0.0, Gas(1.0, 1.0, self.room_temperature))

    def outlet(self, flow: float, gas: Gas) -> float:
        """Return the pressure on the curve; its last pieces go on beyond both ends."""
        taken_in = gas._replace(temperature=self.room_temperature)
        q = volume_flow(flow=flow, pressure=self.ambient, gas=taken_in)
        points = self.curve
        number = len(points) - 2
        while number > 0 and points[number][1] < q:
            number -= 1
        (low, more), (high, less) = points[number], points[number + 1]
        return self.ambient + high - (high - low) * (q - less) / (more - less)


@dataclass(frozen=True, slots=True)
class Held:
    """A regulator that holds a pressure, or with a flow dial a flow."""

    pressure: float
    """Absolute, in Pa."""
    most: float = float("inf")

    @property
    def shut_off(self) -> float:
        """The pressure it holds."""
        return self.pressure

    def outlet(self, flow: float, gas: Gas) -> float:
        """Return the pressure it holds."""
        return self.pressure


@dataclass(frozen=True, slots=True)
class ThroughValve:
    """A concentrator: a store at one pressure behind a valve that sets the flow."""

    pressure: float
    """Absolute, of the store; at no flow it stands at the outlet, in Pa."""
    open_flow: float
    """Into the open, in mol/s."""
    ambient: float
    most: float = float("inf")

    @property
    def shut_off(self) -> float:
        """The pressure of its store."""
        return self.pressure

    def outlet(self, flow: float, gas: Gas) -> float:
        """Return the pressure behind the valve; past the open flow it goes straight on."""
        square, span = self.pressure**2, self.pressure**2 - self.ambient**2
        share = flow / self.open_flow
        if share <= 1.0:
            return sqrt(square - span * share * share)
        return self.ambient - span / self.ambient * (share - 1.0)
