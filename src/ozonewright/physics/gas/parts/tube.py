"""A tube, a barb, an open discharge tube: friction, bends, and what its ends cost."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi

from fluids.fittings import Hooper2K, entrance_sharp, exit_normal

from ozonewright.physics.gas.parts.compressible import inlet_pressure, mass_flux_square
from ozonewright.physics.gas.parts.friction import friction_factor
from ozonewright.physics.gas.parts.law import Gas
from ozonewright.units import Kind, size

SMOOTH = 1.5e-6
"""Roughness of drawn plastic, glass and metal tube (common practice). [m]"""
INCH = 25.4 * size(Kind.LENGTH, "mm")
"""The unit of bore in which the two-K method is written."""
BEND = "Elbow, 90°, Long-radius (R/D = 1.5), All types"
ENDS = float(entrance_sharp() + exit_normal())
"""Loss coefficient of a narrow piece between wide ones: in and out."""


def reynolds_number(*, flow: float, bore: float, gas: Gas) -> float:
    """Reynolds number of the flow in a round tube.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    bore : float
        Inner diameter. [m]
    gas : Gas
        What flows. [-]

    Returns
    -------
    reynolds : float
        On the bore. [1]

    Raises
    ------
    None

    Valid
    -----
    Any flow in a round tube.

    Source
    ------
    fluids_library
    """
    return 4.0 * flow * gas.wet * gas.molar_mass / (pi * bore * gas.viscosity)


def bend_loss(*, reynolds: float, bore: float) -> float:
    """Loss coefficient of one right-angled bend of a tube.

    Parameters
    ----------
    reynolds : float
        On the bore, above 0. [1]
    bore : float
        Inner diameter. [m]

    Returns
    -------
    coefficient : float
        On the velocity in the tube. [1]

    Raises
    ------
    None

    Valid
    -----
    Long-radius bends of pipes from half an inch; carried on to the bores of a bench.

    Source
    ------
    fluids_library, two-K method of Hooper
    """
    return float(Hooper2K(bore / INCH, reynolds, name=BEND))


@dataclass(frozen=True, slots=True)
class Tube:
    """A round tube."""

    bore: float
    length: float
    roughness: float = SMOOTH
    bends: int = 0
    ends: float = 0.0
    """Loss coefficient of its ends."""
    one_way: bool = False
    most: float = inf

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before the tube."""
        if flow == 0.0:
            return outlet
        reynolds = reynolds_number(flow=flow, bore=self.bore, gas=gas)
        rough = self.roughness / self.bore
        resistance = (
            friction_factor(reynolds=reynolds, roughness=rough) * self.length / self.bore
            + self.ends
        )
        if self.bends:
            resistance += self.bends * bend_loss(reynolds=reynolds, bore=self.bore)
        square = mass_flux_square(flow=flow, area=0.25 * pi * self.bore**2, gas=gas)
        return inlet_pressure(square=square, resistance=resistance, outlet_pressure=outlet)
