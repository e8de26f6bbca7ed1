"""How fast ozone moves in liquids and in gas."""

from __future__ import annotations

from math import e

from ozonewright.physics import Real
from ozonewright.references.constants import NORMAL_PRESSURE, NORMAL_TEMPERATURE

FACTOR, WARMTH = 1.10e-6, 1896.0
"""Of ozone in water. [m2/s, K]"""
VOLUME_OF_OZONE = 35.5
"""Molar volume at the boiling point. [cm3/mol]"""


def diffusivity_johnson_1996(*, temperature: Real) -> Real:
    """Diffusivity of ozone in water.

    Parameters
    ----------
    temperature : float
        Of the water. [K]

    Returns
    -------
    diffusivity : float
        Of dissolved ozone. [m2/s]

    Raises
    ------
    None

    Valid
    -----
    10..50 °C, from memory.

    Source
    ------
    johnson_1996, D = 1.10e-6 exp(-1896/T), from memory

    Example
    -------
    1.708e-9 m2/s at 20 °C.
    """
    return FACTOR * e ** (-WARMTH / temperature)


def diffusivity_wilke_1955(
    *, molar_mass: Real, association: Real, viscosity: Real, temperature: Real
) -> Real:
    """Diffusivity of ozone in a liquid, from the liquid's viscosity.

    Parameters
    ----------
    molar_mass : float
        Of the liquid. [kg/mol]
    association : float
        2.6 for water, 1.9 methanol, 1.5 ethanol, 1 for others. [1]
    viscosity : float
        Of the liquid. [Pa s]
    temperature : float
        Of the liquid. [K]

    Returns
    -------
    diffusivity : float
        Of dissolved ozone. [m2/s]

    Raises
    ------
    None

    Valid
    -----
    10 to 15 % for thin liquids; beyond 5 mPa s too low.

    Source
    ------
    wilke_1955, 7.4e-8 (phi M)^0.5 T/(mu V^0.6) in cm2/s, g/mol, mPa s, cm3/mol, from memory

    Notes
    -----
    With SI units the factor is 7.4e-8 x 1e-4 x 1e-3 x (1e3)^0.5 = 2.340e-13.
    """
    of_liquid: Real = (association * molar_mass) ** 0.5 * temperature / viscosity
    of_ozone: float = VOLUME_OF_OZONE**0.6
    return 2.340e-13 * of_liquid / of_ozone


def diffusivity_massman_1998(*, temperature: Real, pressure: Real) -> Real:
    """Diffusivity of ozone in air or oxygen.

    Parameters
    ----------
    temperature : float
        Of the gas. [K]
    pressure : float
        Of the gas. [Pa]

    Returns
    -------
    diffusivity : float
        Of ozone in the gas. [m2/s]

    Raises
    ------
    None

    Valid
    -----
    -80..60 °C; the figure is of air, oxygen differs by a few per cent.

    Source
    ------
    massman_1998, 0.1444 cm2/s at 0 °C and 1 atm, power 1.81, from memory
    """
    return 1.444e-5 * (temperature / NORMAL_TEMPERATURE) ** 1.81 * NORMAL_PRESSURE / pressure


def viscosity_of_liquid(
    *, temperature: Real, temperatures: tuple[float, ...], viscosities: tuple[float, ...]
) -> Real:
    """Viscosity of a liquid between three figures of it.

    Parameters
    ----------
    temperature : float
        Of the liquid. [K]
    temperatures : tuple of float
        Three of them. [K]
    viscosities : tuple of float
        At each of the three. [Pa s]

    Returns
    -------
    viscosity : float
        Exactly the figure at each of the three. [Pa s]

    Raises
    ------
    None

    Valid
    -----
    Between the outer two, and 20 K beyond; within 5 % of the library's curve.

    Source
    ------
    geometry

    Notes
    -----
    ln viscosity is the parabola in 1/T through the three (Lagrange).
    """
    at = [1.0 / each for each in temperatures]
    x: Real = 1.0 / temperature
    first = (x - at[1]) * (x - at[2]) / ((at[0] - at[1]) * (at[0] - at[2]))
    second = (x - at[0]) * (x - at[2]) / ((at[1] - at[0]) * (at[1] - at[2]))
    third = (x - at[0]) * (x - at[1]) / ((at[2] - at[0]) * (at[2] - at[1]))
    return viscosities[0] ** first * viscosities[1] ** second * viscosities[2] ** third
