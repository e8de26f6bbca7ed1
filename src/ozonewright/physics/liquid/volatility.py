"""What gas carries out of a liquid: substances dissolved in it, and the liquid itself."""

from __future__ import annotations

from typing import cast

import numpy as np

from ozonewright.physics import Real
from ozonewright.references.constants import R

BAR = 1e5
"""Pressure at which the law of the boiling point is written. [Pa]"""


def vapour_pressure_of_boiling_point(
    *, boiling_point: Real, temperature: Real, fishtine: Real
) -> Real:
    """Vapour pressure of a liquid from its boiling point alone.

    Parameters
    ----------
    boiling_point : float
        At 1 bar. [K]
    temperature : float
        Of the liquid, or of a solid as if it were one. [K]
    fishtine : float
        1, and up to 1.3 where hydrogen bonds hold the liquid together. [1]

    Returns
    -------
    pressure : float
        Of the vapour. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Below the boiling point: from -78 to 40 °C within a factor of 1.4 (one standard uncertainty) of
    the equations of the library chemicals, 2.2 for alcohols and phenols.

    Source
    ------
    schwarzenbach_2003, from memory

    Notes
    -----
    ln(p/bar) = -K (4.4 + ln T_b) [1.8 (T_b/T - 1) - 0.8 ln(T_b/T)]
    """
    over: Real = boiling_point / temperature
    exponent = fishtine * (4.4 + np.log(boiling_point)) * (1.8 * (over - 1.0) - 0.8 * np.log(over))
    return cast(Real, BAR * np.exp(-exponent))


def gas_over_liquid(
    *, vapour_pressure: Real, activity: Real, temperature: Real, liquid: Real
) -> Real:
    """Concentration of a dissolved substance in the gas over that in the liquid.

    Parameters
    ----------
    vapour_pressure : float
        Of the pure substance. [Pa]
    activity : float
        Its activity coefficient in the liquid; 1 by Raoult's law. [1]
    temperature : float
        Of both. [K]
    liquid : float
        Concentration of the liquid itself. [mol/m3]

    Returns
    -------
    ratio : float
        In balance. [1]

    Raises
    ------
    None

    Valid
    -----
    Dilute, ideal gas.

    Source
    ------
    stoichiometry, law of Raoult

    Notes
    -----
    m = gamma p/(R T c)
    """
    return activity * vapour_pressure / (R * temperature * liquid)


def stripping(*, flow: Real, volume: Real, ratio: Real, through: Real, area_time: Real) -> Real:
    """How fast gas carries a dissolved substance off, for each there is.

    Parameters
    ----------
    flow : float
        Gas through the liquid. [m3/s]
    volume : float
        Of the liquid. [m3]
    ratio : float
        In the gas over in the liquid, in balance. [1]
    through : float
        Transfer coefficient through gas and liquid together, based on the gas. [m/s]
    area_time : float
        Surface of a bubble over its volume, times its time in the liquid. [s/m]

    Returns
    -------
    rate : float
        Of first order. [1/s]

    Raises
    ------
    None

    Valid
    -----
    Mixed liquid, bubbles in plug flow; the gas comes without the substance.

    Source
    ------
    stoichiometry
    """
    return cast(Real, flow * ratio / volume * -np.expm1(-through * area_time))


def drying(*, gas_flow: Real, fraction: Real, molar_volume: Real, volume: Real) -> Real:
    """Share of a liquid that saturated gas carries off in a time.

    Parameters
    ----------
    gas_flow : float
        Dry gas. [mol/s]
    fraction : float
        Vapour in the gas that leaves, below one. [1]
    molar_volume : float
        Of the liquid. [m3/mol]
    volume : float
        Of the liquid at the start. [m3]

    Returns
    -------
    rate : float
        Share of the first volume. [1/s]

    Raises
    ------
    None

    Valid
    -----
    The bath keeps the temperature.

    Source
    ------
    stoichiometry
    """
    return gas_flow * fraction / (1.0 - fraction) * molar_volume / volume
