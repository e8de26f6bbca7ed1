"""A part known by one reading: so much gas passes at so much loss."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from ozonewright.physics.gas.parts.amounts import density, volume_flow
from ozonewright.physics.gas.parts.compressible import inlet_pressure_of_loss
from ozonewright.physics.gas.parts.law import Gas


def resistance_loss(
    *, flow: float, linear: float, quadratic: float, pressure: float, gas: Gas
) -> float:
    """Loss of pressure in a part known by one reading, carried over to another gas.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    linear : float
        Loss over viscosity and volume flow. [1/m3]
    quadratic : float
        Loss over density and volume flow squared. [1/m4]
    pressure : float
        Absolute pressure at which the density is taken. [Pa]
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
    Creeping flow (linear) or inertial flow (quadratic).

    Source
    ------
    tiesinga_2021, table 31

    Notes
    -----
    q = n R T/p, loss = linear mu q + quadratic rho q^2
    """
    q = volume_flow(flow=flow, pressure=pressure, gas=gas)
    rho = density(pressure=pressure, gas=gas)
    return linear * gas.viscosity * q + quadratic * rho * q * q


def linear_of_reading(*, flow: float, loss: float, pressure: float, gas: Gas) -> float:
    """Linear resistance of a part from one reading.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    loss : float
        Of pressure, without what opens the part. [Pa]
    pressure : float
        Absolute pressure behind the part. [Pa]
    gas : Gas
        What flowed. [-]

    Returns
    -------
    linear : float
        Loss over viscosity and volume flow. [1/m3]

    Raises
    ------
    None

    Valid
    -----
    Creeping flow through pores and beds.

    Source
    ------
    tiesinga_2021, table 31
    """
    return loss / (gas.viscosity * volume_flow(flow=flow, pressure=pressure, gas=gas))


def quadratic_of_reading(*, flow: float, loss: float, pressure: float, gas: Gas) -> float:
    """Quadratic resistance of a part from one reading.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    loss : float
        Of pressure, without what opens the part. [Pa]
    pressure : float
        Absolute pressure behind the part. [Pa]
    gas : Gas
        What flowed. [-]

    Returns
    -------
    quadratic : float
        Loss over density and volume flow squared. [1/m4]

    Raises
    ------
    None

    Valid
    -----
    Inertial flow through valves, far below the speed of sound.

    Source
    ------
    tiesinga_2021, table 31
    """
    q = volume_flow(flow=flow, pressure=pressure, gas=gas)
    return loss / (density(pressure=pressure, gas=gas) * q * q)


@dataclass(frozen=True, slots=True)
class Porous:
    """A bed known by one reading."""

    linear: float
    one_way: bool = False
    most: float = inf

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before the part."""
        loss = resistance_loss(
            flow=flow, linear=self.linear, quadratic=0.0, pressure=outlet, gas=gas
        )
        return inlet_pressure_of_loss(outlet_pressure=outlet, loss=loss)
