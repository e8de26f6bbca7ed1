"""Ozone as an explosive: in the gas, and condensed in a trap that is too cold."""

from __future__ import annotations

from ozonewright.physics import Real


def condensed_share(*, mole_fraction: Real, pressure: Real, vapour_pressure: Real) -> Real:
    """How far ozone in a gas is above what a cold bath lets stay gas.

    Parameters
    ----------
    mole_fraction : float
        Ozone in the gas. [1]
    pressure : float
        Absolute pressure of the gas. [Pa]
    vapour_pressure : float
        Of liquid ozone at the temperature of the bath. [Pa]

    Returns
    -------
    ratio : float
        Above one, liquid ozone forms, which explodes. [1]

    Raises
    ------
    None

    Valid
    -----
    From 80 K; below that ozone freezes out all the same. Oxygen itself condenses below 90 K.

    Source
    ------
    chemicals_library
    """
    return mole_fraction * pressure / vapour_pressure


def energy_of_peroxide(*, amount: Real, enthalpy: Real) -> Real:
    """Heat that a peroxide inventory gives when it decomposes.

    Parameters
    ----------
    amount : float
        Peroxide, one for each ozone taken up. [mol]
    enthalpy : float
        Heat of decomposition for each. [J/mol]

    Returns
    -------
    energy : float
        Heat set free. [J]

    Raises
    ------
    None

    Valid
    -----
    All of it at once; published heats lie between 240 and 300 kJ/mol.

    Source
    ------
    cataldo_2014
    """
    return amount * enthalpy
