"""Gas that a part holds, and how long the flow takes through it."""

from __future__ import annotations

from math import pi

from ozonewright.physics import Real
from ozonewright.physics.gas.parts.amounts import volume_flow
from ozonewright.physics.gas.parts.law import Gas


def bore_volume(*, bore: Real, length: Real) -> Real:
    """Volume of a round bore.

    Parameters
    ----------
    bore : float
        Inner diameter. [m]
    length : float
        Of the bore. [m]

    Returns
    -------
    volume : float
        Inside. [m3]

    Raises
    ------
    None

    Valid
    -----
    Any cylinder.

    Source
    ------
    geometry
    """
    return 0.25 * pi * bore**2 * length


def passage_time(*, volume: float, flow: float, pressure: float, gas: Gas) -> float:
    """Time that a flow takes to fill a volume once.

    Parameters
    ----------
    volume : float
        Of the part. [m3]
    flow : float
        Dry gas, above 0. [mol/s]
    pressure : float
        Absolute, in the part. [Pa]
    gas : Gas
        What flows. [-]

    Returns
    -------
    time : float
        Plug flow; a mixed bottle needs about three times as long to change over to 95 %. [s]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas.

    Source
    ------
    tiesinga_2021, table 31
    """
    return volume / volume_flow(flow=flow, pressure=pressure, gas=gas)
