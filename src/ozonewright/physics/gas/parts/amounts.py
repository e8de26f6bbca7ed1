"""Volume flow and density of the gas in a part."""

from __future__ import annotations

from ozonewright.physics.gas.parts.law import Gas
from ozonewright.references.constants import R


def volume_flow(*, flow: float, pressure: float, gas: Gas) -> float:
    """Volume flow of the wet gas at a pressure.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    pressure : float
        Absolute. [Pa]
    gas : Gas
        What flows. [-]

    Returns
    -------
    volume_flow : float
        At the temperature of the gas. [m3/s]

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
    return flow * gas.wet * R * gas.temperature / pressure


def density(*, pressure: float, gas: Gas) -> float:
    """Density of the wet gas at a pressure.

    Parameters
    ----------
    pressure : float
        Absolute. [Pa]
    gas : Gas
        What flows. [-]

    Returns
    -------
    density : float
        At the temperature of the gas. [kg/m3]

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
    return pressure * gas.molar_mass / (R * gas.temperature)
