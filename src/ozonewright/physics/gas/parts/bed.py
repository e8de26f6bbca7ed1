"""A bed of grains: desiccant, catalyst."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi

from ozonewright.physics.gas.parts.amounts import density, volume_flow
from ozonewright.physics.gas.parts.compressible import inlet_pressure_of_loss
from ozonewright.physics.gas.parts.law import Gas

VOID = 0.4
"""Free share of a bed of grains poured in (common practice)."""


def bed_loss(
    *,
    flow: float,
    outlet_pressure: float,
    bore: float,
    length: float,
    grain: float,
    void: float,
    gas: Gas,
) -> float:
    """Loss of pressure in a bed of grains at the density of its outlet.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    outlet_pressure : float
        Absolute. [Pa]
    bore : float
        Inner diameter of the column. [m]
    length : float
        Of the bed. [m]
    grain : float
        Diameter of the grains. [m]
    void : float
        Free share of the bed. [1]
    gas : Gas
        What flows. [-]

    Returns
    -------
    loss : float
        Of pressure. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Grains about round and alike; column over ten grains wide.

    Source
    ------
    fluids_library, packed_bed (Ergun's equation)

    Notes
    -----
    loss / L = 150 μ (1 − ε)² v / (ε³ d²) + 1.75 ρ (1 − ε) v² / (ε³ d), v on the empty column.
    Without a friction factor, so that no flow is no loss.
    """
    velocity = volume_flow(flow=flow, pressure=outlet_pressure, gas=gas) / (0.25 * pi * bore**2)
    solid = 1.0 - void
    viscous = 150.0 * solid * gas.viscosity / grain
    inertial = 1.75 * density(pressure=outlet_pressure, gas=gas) * velocity
    return length * solid * velocity * (viscous + inertial) / (void**3 * grain)


@dataclass(frozen=True, slots=True)
class Bed:
    """A bed of grains in a column."""

    bore: float
    length: float
    grain: float
    void: float = VOID
    one_way: bool = False
    most: float = inf

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before the bed."""
        loss = bed_loss(
            flow=flow,
            outlet_pressure=outlet,
            bore=self.bore,
            length=self.length,
            grain=self.grain,
            void=self.void,
            gas=gas,
        )
        return inlet_pressure_of_loss(outlet_pressure=outlet, loss=loss)


def breakthrough_time(*, mass: float, capacity: float, water_flow: float) -> float:
    """Time until a desiccant is full.

    Parameters
    ----------
    mass : float
        Of dry desiccant. [kg]
    capacity : float
        Water held over the mass of the desiccant. [1]
    water_flow : float
        Water that the gas leaves in it. [kg/s]

    Returns
    -------
    time : float
        Of gas at this flow. [s]

    Raises
    ------
    None

    Valid
    -----
    The whole bed takes part; the first moist gas comes through earlier.

    Source
    ------
    stoichiometry
    """
    return mass * capacity / water_flow
