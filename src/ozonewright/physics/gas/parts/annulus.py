"""The gap of a discharge tube: laminar flow between two walls."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, log, pi

from ozonewright.physics.gas.parts.compressible import inlet_pressure, mass_flux_square
from ozonewright.physics.gas.parts.friction import friction_factor
from ozonewright.physics.gas.parts.law import Gas

NEARLY_FLAT = 1.0 - 1e-3
"""Ratio of the walls from which they are as good as flat, to one part in ten million."""


def laminar_shape(*, ratio: float) -> float:
    """Friction factor times Reynolds number of laminar flow in an annulus.

    Parameters
    ----------
    ratio : float
        Inner over outer diameter, between 0 and 1. [1]

    Returns
    -------
    shape : float
        On the hydraulic diameter, twice the gap; 64 in a round tube, 96 in a thin gap. [1]

    Raises
    ------
    None

    Valid
    -----
    Laminar, fully developed; walls about one axis.

    Source
    ------
    bird_2002, section 2.4

    Notes
    -----
    64 (1 - k)^2 / (1 + k^2 + (1 - k^2)/ln k); as k nears 1 this nears the 96 of two flat walls,
    and the sum above would be a small difference of large numbers.
    """
    k = ratio
    if k > NEARLY_FLAT:
        return 96.0
    return 64.0 * (1.0 - k) ** 2 / (1.0 + k * k + (1.0 - k * k) / log(k))


def annulus_area(*, bore: float, gap: float) -> float:
    """Free cross-section of an annulus.

    Parameters
    ----------
    bore : float
        Diameter of the outer wall. [m]
    gap : float
        Between the walls. [m]

    Returns
    -------
    area : float
        Across the gas. [m2]

    Raises
    ------
    None

    Valid
    -----
    Any annulus.

    Source
    ------
    bird_2002, section 2.4
    """
    return pi * gap * (bore - gap)


@dataclass(frozen=True, slots=True)
class Annulus:
    """Gas between two walls about one axis."""

    bore: float
    gap: float
    length: float
    one_way: bool = False
    most: float = inf

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before the gap."""
        if flow == 0.0:
            return outlet
        area = annulus_area(bore=self.bore, gap=self.gap)
        width = 2.0 * self.gap
        reynolds = flow * gas.wet * gas.molar_mass * width / (area * gas.viscosity)
        shape = laminar_shape(ratio=1.0 - width / self.bore) / 64.0
        factor = shape * friction_factor(reynolds=reynolds, roughness=0.0)
        square = mass_flux_square(flow=flow, area=area, gas=gas)
        return inlet_pressure(
            square=square, resistance=factor * self.length / width, outlet_pressure=outlet
        )
