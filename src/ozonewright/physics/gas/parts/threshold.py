"""Parts that open at a pressure: check valves, wetted pores, liquid, a float in its tube."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from ozonewright.physics import Real
from ozonewright.physics.gas.parts.law import Gas
from ozonewright.physics.gas.parts.reading import resistance_loss

GRAVITY = 9.80665
"""Standard acceleration of gravity. [m/s2]"""


def bubble_point(*, surface_tension: Real, pore: Real) -> Real:
    """Gauge pressure at which gas opens a pore that a liquid wets.

    Parameters
    ----------
    surface_tension : float
        Of the liquid. [N/m]
    pore : float
        Diameter of the widest pore. [m]

    Returns
    -------
    pressure : float
        Above that of the liquid at the pore. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Contact angle 0; real stones and frits take one to two times this.

    Source
    ------
    laplace_1806

    Notes
    -----
    p = 4 sigma/d
    """
    return 4.0 * surface_tension / pore


def static_head(*, density: Real, depth: Real) -> Real:
    """Pressure of a liquid at a depth.

    Parameters
    ----------
    density : float
        Of the liquid. [kg/m3]
    depth : float
        Below its surface. [m]

    Returns
    -------
    pressure : float
        Above that at the surface. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Still liquid; the gas in it is left out (a few per cent of the depth at most).

    Source
    ------
    cgpm_1901, standard acceleration of gravity
    """
    return density * GRAVITY * depth


@dataclass(frozen=True, slots=True)
class Threshold:
    """A part that passes gas one way, from a pressure on, and then loses more with the flow."""

    opening: float
    """Loss at no flow. [Pa]"""
    linear: float = 0.0
    """Further loss for each flow, times viscosity over density. [1/m3]"""
    quadratic: float = 0.0
    """Further loss for each square of flow, over density. [1/m4]"""
    one_way: bool = True
    most: float = inf

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before the part."""
        if self.linear == 0.0 and self.quadratic == 0.0:
            return outlet + self.opening
        return (
            outlet
            + self.opening
            + resistance_loss(
                flow=flow, linear=self.linear, quadratic=self.quadratic, pressure=outlet, gas=gas
            )
        )
