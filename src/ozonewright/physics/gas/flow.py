"""Molar flow of dry gas, before and behind the discharge."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.physics import Real
from ozonewright.references.constants import M_O3, R


def molar_flow(
    *, volume_flow: Real, temperature: Real, pressure: Real, water_fraction: Real
) -> Real:
    """Molar flow of the dry part of a gas from its volume flow at stated conditions.

    Parameters
    ----------
    volume_flow : float
        Flow at the temperature and pressure beside it. [m3/s]
    temperature : float
        Temperature of the gas where its volume is read. [K]
    pressure : float
        Absolute pressure there. [Pa]
    water_fraction : float
        Mole fraction of water vapour in the gas there. [1]

    Returns
    -------
    molar_flow : float
        Dry gas. [mol/s]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas: within 0.1 % for air and oxygen at 0..50 °C and up to 2 bar.

    Source
    ------
    tiesinga_2021

    Notes
    -----
    n = (1 - y_w) p q / (R T)
    """
    return (1.0 - water_fraction) * pressure * volume_flow / (R * temperature)


def volume_flow(*, molar_flow: Real, temperature: Real, pressure: Real) -> Real:
    """Volume flow at stated conditions from the molar flow of a gas.

    Parameters
    ----------
    molar_flow : float
        All of the gas, its water vapour included. [mol/s]
    temperature : float
        Temperature of the gas where its volume is wanted. [K]
    pressure : float
        Absolute pressure there. [Pa]

    Returns
    -------
    volume_flow : float
        Flow at that temperature and pressure. [m3/s]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas: within 0.1 % for air and oxygen at 0..50 °C and up to 2 bar.

    Source
    ------
    tiesinga_2021

    Notes
    -----
    q = n R T / p
    """
    return molar_flow * R * temperature / pressure


def feed_flow(*, ozonised_flow: Real, ozone_rate: Real) -> Real:
    """Molar flow into the tube from the flow of ozonised gas behind it.

    Parameters
    ----------
    ozonised_flow : float
        Dry ozonised gas. [mol/s]
    ozone_rate : float
        Ozone in it. [mol/s]

    Returns
    -------
    feed_flow : float
        Dry feed. [mol/s]

    Raises
    ------
    None

    Valid
    -----
    3 O2 -> 2 O3 is the only reaction that changes the amount of gas.

    Source
    ------
    stoichiometry

    Notes
    -----
    Two ozone are made of three oxygen, so half an amount of gas is lost per ozone.
    """
    return ozonised_flow + 0.5 * ozone_rate


def ozonised_flow(*, feed_flow: Real, ozone_rate: Real) -> Real:
    """Molar flow of ozonised gas behind the tube from the feed into it.

    Parameters
    ----------
    feed_flow : float
        Dry feed. [mol/s]
    ozone_rate : float
        Ozone made from it. [mol/s]

    Returns
    -------
    ozonised_flow : float
        Dry ozonised gas; an iodide trap does not change it. [mol/s]

    Raises
    ------
    None

    Valid
    -----
    3 O2 -> 2 O3 is the only reaction that changes the amount of gas.

    Source
    ------
    stoichiometry
    """
    return feed_flow - 0.5 * ozone_rate


def ozone_mass_fraction(*, ozone_rate: Real, feed_flow: Real, feed_molar_mass: Real) -> Real:
    """Mass fraction of ozone in the dry ozonised gas.

    Parameters
    ----------
    ozone_rate : float
        Ozone. [mol/s]
    feed_flow : float
        Dry feed into the tube. [mol/s]
    feed_molar_mass : float
        Mean molar mass of the dry feed. [kg/mol]

    Returns
    -------
    mass_fraction : float
        Ozone in ozonised gas. [1]

    Raises
    ------
    None

    Valid
    -----
    The discharge changes no mass, so the ozonised gas weighs what the feed weighs.

    Source
    ------
    stoichiometry
    """
    return ozone_rate * M_O3 / (feed_flow * feed_molar_mass)


def mass_fraction_from_mole_fraction(*, mole_fraction: Real, carrier_molar_mass: Real) -> Real:
    """Mass fraction of ozone from its mole fraction in a carrier gas.

    Parameters
    ----------
    mole_fraction : float
        Ozone in ozonised gas. [1]
    carrier_molar_mass : float
        Mean molar mass of all gas but the ozone. [kg/mol]

    Returns
    -------
    mass_fraction : float
        Ozone in ozonised gas. [1]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas; dry.

    Source
    ------
    stoichiometry
    """
    ozone = mole_fraction * M_O3
    return ozone / (ozone + (1.0 - mole_fraction) * carrier_molar_mass)


def mass_per_volume(*, mole_fraction: Real, temperature: Real, pressure: Real) -> Real:
    """Mass of ozone in a volume of gas from its mole fraction.

    Parameters
    ----------
    mole_fraction : float
        Ozone in the gas. [1]
    temperature : float
        Temperature on which the volume is based. [K]
    pressure : float
        Absolute pressure on which the volume is based. [Pa]

    Returns
    -------
    mass_per_volume : float
        Ozone in the gas. [kg/m3]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas.

    Source
    ------
    tiesinga_2021
    """
    return mole_fraction * M_O3 * pressure / (R * temperature)


def rotameter_flow(
    *,
    reading: Real,
    calibrated_molar_mass: Real,
    calibrated_temperature: Real,
    calibrated_pressure: Real,
    molar_mass: Real,
    temperature: Real,
    pressure: Real,
) -> Real:
    """True volume flow at its own conditions from a float meter calibrated for another gas.

    Parameters
    ----------
    reading : float
        What the scale says. [m3/s]
    calibrated_molar_mass : float
        Molar mass of the gas the scale was drawn for. [kg/mol]
    calibrated_temperature : float
        Temperature the scale was drawn for. [K]
    calibrated_pressure : float
        Absolute pressure the scale was drawn for. [Pa]
    molar_mass : float
        Mean molar mass of the gas in the meter. [kg/mol]
    temperature : float
        Its temperature. [K]
    pressure : float
        Its absolute pressure. [Pa]

    Returns
    -------
    volume_flow : float
        Flow at `temperature` and `pressure`. [m3/s]

    Raises
    ------
    None

    Valid
    -----
    Floats in turbulent annular flow; small ball floats follow viscosity too and may be 10 % off.

    Source
    ------
    unnamed_rotameter_table

    Notes
    -----
    The pressure loss carries the float, so flow goes with the root of the inverse density.
    """
    calibrated_density = calibrated_molar_mass * calibrated_pressure / calibrated_temperature
    density = molar_mass * pressure / temperature
    return reading * (calibrated_density / density) ** 0.5


def mean_molar_mass(*, fractions: Sequence[Real], molar_masses: Sequence[float]) -> Real:
    """Mean molar mass of a mixture.

    Parameters
    ----------
    fractions : sequence of float
        Mole fractions; they need not add up to one exactly. [1]
    molar_masses : sequence of float
        In the same order. [kg/mol]

    Returns
    -------
    molar_mass : float
        Of the mixture. [kg/mol]

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
    weighted = [x * mass for x, mass in zip(fractions, molar_masses, strict=True)]
    return sum(weighted[1:], weighted[0]) / sum(fractions[1:], fractions[0])
