"""How warm the gas in a gap is."""

from __future__ import annotations

from math import e

from ozonewright.physics import Real
from ozonewright.references.discharge import belief

HEAT_CAPACITY = belief("HEAT_CAPACITY").centre.value


def gas_temperature(*, power: Real, flow: Real, wall: Real, inlet: Real, resistance: Real) -> Real:
    """Mean temperature of the gas along a gap that is heated evenly and cooled by its wall.

    Parameters
    ----------
    power : float
        Heat given to the gas. [W]
    flow : float
        Feed, above zero. [mol/s]
    wall : float
        Of the tube. [K]
    inlet : float
        Of the gas that comes in. [K]
    resistance : float
        Mean rise of the gas over the wall for each watt, once it is settled. [K/W]

    Returns
    -------
    temperature : float
        Mean along the gap. [K]

    Raises
    ------
    None

    Valid
    -----
    Heat spread evenly, one wall temperature, heat capacity of oxygen and air near 300 K.

    Source
    ------
    incropera_2007, flow along a wall of one temperature

    Notes
    -----
    T = T_w + P R + (T_in - T_w - P R) (1 - exp(-N)) / N with N = 1 / (R n c_p)
    """
    settled = wall + power * resistance
    units = 1.0 / (resistance * flow * HEAT_CAPACITY)
    return settled + (inlet - settled) * (1.0 - e ** (-units)) / units
