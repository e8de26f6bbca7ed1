"""How much ozone gets out: past a bottle, through a leak, from a loose hose, with a purge."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import M_O3, R


def mass_of_ozone(*, amount: Real) -> Real:
    """Mass of an amount of ozone, also per time.

    Parameters
    ----------
    amount : float
        Of ozone; a rate in mol/s gives one in kg/s. [mol]

    Returns
    -------
    mass : float
        Of ozone. [kg]

    Raises
    ------
    None

    Valid
    -----
    Any amount.

    Source
    ------
    prohaska_2022
    """
    return amount * M_O3


def release_by_slip(*, output: Real, uptake: Real, destroyed: Real = 0.0) -> Real:
    """Ozone that leaves the train into the room because the liquid did not take it.

    Parameters
    ----------
    output : float
        Ozone from the tube. [kg/s]
    uptake : float
        Share of it that the liquid takes. [1]
    destroyed : float
        Share of the slip that a tail bottle or a destruct takes away. [1]

    Returns
    -------
    release : float
        Into the room. [kg/s]

    Raises
    ------
    None

    Valid
    -----
    Shares of 0..1. A hose off or an open flask in place of the train: uptake and destroyed zero.

    Source
    ------
    stoichiometry
    """
    return output * (1.0 - uptake) * (1.0 - destroyed)


def release_by_leak(*, concentration: Real, leak: Real) -> Real:
    """Ozone that leaves with gas through a leaking joint.

    Parameters
    ----------
    concentration : float
        Ozone in the gas at the joint. [kg/mol]
    leak : float
        Gas that leaks, dry. [mol/s]

    Returns
    -------
    release : float
        Into the room. [kg/s]

    Raises
    ------
    None

    Valid
    -----
    The gas that leaks is as strong as the gas that flows by.

    Source
    ------
    stoichiometry
    """
    return concentration * leak


def mass_of_purge(*, concentration: Real, volume: Real, temperature: Real, pressure: Real) -> Real:
    """Ozone in the gas space of a train, which a purge drives out.

    Parameters
    ----------
    concentration : float
        Ozone in the gas. [kg/mol]
    volume : float
        Gas space of tube, bottles and lines. [m3]
    temperature : float
        Of the gas. [K]
    pressure : float
        Absolute pressure of the gas. [Pa]

    Returns
    -------
    mass : float
        Ozone driven out. [kg]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas; ozone dissolved in the liquid comes on top.

    Source
    ------
    tiesinga_2021
    """
    return concentration * volume * pressure / (R * temperature)
