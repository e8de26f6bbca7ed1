"""Ways to say how much of one gas is in another."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import M_O3, R


def molar_volume(*, temperature: Real, pressure: Real) -> Real:
    """Volume of one mole of gas.

    Parameters
    ----------
    temperature : float
        Of the gas. [K]
    pressure : float
        Absolute pressure of the gas. [Pa]

    Returns
    -------
    molar_volume : float
        At that temperature and pressure. [m3/mol]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas: within 0.1 % for air and oxygen at 0..50 °C and up to 2 bar.

    Source
    ------
    tiesinga_2021
    """
    return R * temperature / pressure


def ozone_mole_fraction(*, concentration: Real) -> Real:
    """Mole fraction of ozone from its mass in a mole (or a normal volume) of ozonised gas.

    Parameters
    ----------
    concentration : float
        Mass of ozone per amount of dry ozonised gas; g/Nm3 is a unit of it. [kg/mol]

    Returns
    -------
    mole_fraction : float
        Ozone in ozonised gas. [1]

    Raises
    ------
    None

    Valid
    -----
    Dry gas; ideal where the concentration is stated per normal volume.

    Source
    ------
    din_1990
    """
    return concentration / M_O3


def ozone_concentration(*, mole_fraction: Real) -> Real:
    """Mass of ozone in a mole (or a normal volume) of ozonised gas from its mole fraction.

    Parameters
    ----------
    mole_fraction : float
        Ozone in ozonised gas. [1]

    Returns
    -------
    concentration : float
        Mass of ozone per amount of dry ozonised gas; g/Nm3 is a unit of it. [kg/mol]

    Raises
    ------
    None

    Valid
    -----
    Dry gas; ideal where the concentration is stated per normal volume.

    Source
    ------
    din_1990
    """
    return mole_fraction * M_O3


def mole_fraction_of(*, mass_fraction: Real, molar_mass: Real, carrier_molar_mass: Real) -> Real:
    """Mole fraction of any gas from its mass fraction in a carrier gas.

    Parameters
    ----------
    mass_fraction : float
        Of the gas in the mixture. [1]
    molar_mass : float
        Of the gas. [kg/mol]
    carrier_molar_mass : float
        Mean molar mass of all the rest. [kg/mol]

    Returns
    -------
    mole_fraction : float
        Of the gas in the mixture. [1]

    Raises
    ------
    None

    Valid
    -----
    Any mixture.

    Source
    ------
    stoichiometry
    """
    amount = mass_fraction / molar_mass
    return amount / (amount + (1.0 - mass_fraction) / carrier_molar_mass)
