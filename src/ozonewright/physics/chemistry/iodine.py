"""Iodine in iodide solution: how much is free, and how much the gas carries off."""

from __future__ import annotations

from math import e

from ozonewright.physics import Real
from ozonewright.references.constants import (
    I2_HENRY,
    I2_HENRY_SLOPE,
    REFERENCE_TEMPERATURE,
    TRIIODIDE_CONSTANT,
    TRIIODIDE_ENTHALPY,
    TRIIODIDE_HEAT_CAPACITY,
    R,
)


def triiodide_constant(*, temperature: Real) -> Real:
    """Equilibrium constant of I2 + I- = I3- in water, on the scale of mol/L.

    Parameters
    ----------
    temperature : float
        Of the solution. [K]

    Returns
    -------
    constant : float
        [I3-]/([I2][I-]). [L/mol]

    Raises
    ------
    None

    Valid
    -----
    273..323 K; molality taken as molarity (0.3 % in dilute solution).

    Source
    ------
    palmer_1984

    Notes
    -----
    ln K(T) = ln K0 - dH/R (1/T - 1/T0) + dCp/R (T0/T - 1 - ln(T0/T)), T0 = 298.15 K; the last term
    is written by its series, which is within 1e-5 over the range and needs no logarithm.
    """
    T0 = REFERENCE_TEMPERATURE
    x = T0 / temperature - 1.0
    curvature = x**2 / 2.0 - x**3 / 3.0 + x**4 / 4.0 - x**5 / 5.0
    exponent = -TRIIODIDE_ENTHALPY / (R * T0) * x + TRIIODIDE_HEAT_CAPACITY / R * curvature
    return TRIIODIDE_CONSTANT * e**exponent


def free_iodine(*, iodine: Real, iodide: Real, constant: Real) -> Real:
    """Share of the iodine that is I2 and not I3-.

    Parameters
    ----------
    iodine : float
        All iodine, free and bound. [mol/m3]
    iodide : float
        All iodide that is left, free and bound in I3-. [mol/m3]
    constant : float
        Equilibrium constant of I2 + I- = I3-. [L/mol]

    Returns
    -------
    free_share : float
        I2 as share of all iodine. [1]

    Raises
    ------
    None

    Valid
    -----
    Any positive concentrations; activities taken as concentrations.

    Source
    ------
    palmer_1984

    Notes
    -----
    K = b/((c - b)(i - b)) is a quadratic in the bound iodine b; the smaller root is meant, here in
    the form that keeps its digits when b is small.
    """
    K = constant * 1e-3  # m3/mol
    half = iodine + iodide + 1.0 / K
    bound = 2.0 * iodine * iodide / (half + (half**2 - 4.0 * iodine * iodide) ** 0.5)
    return 1.0 - bound / iodine


def iodine_carried_off(
    *, free_share: Real, gas_flow: Real, volume: Real, temperature: Real
) -> Real:
    """Share of the iodine in a bottle that the gas carries off per second.

    Parameters
    ----------
    free_share : float
        I2 as share of all iodine. [1]
    gas_flow : float
        Gas through the bottle, at its conditions. [m3/s]
    volume : float
        Liquid in the bottle. [m3]
    temperature : float
        Of the liquid. [K]

    Returns
    -------
    rate : float
        Share lost per time. [1/s]

    Raises
    ------
    None

    Valid
    -----
    The gas leaves saturated with I2: an upper bound for large bubbles.

    Source
    ------
    sander_2023

    Notes
    -----
    Henry constant of I2 with its slope; cl/cg = H R T.
    """
    x = 1.0 / temperature - 1.0 / REFERENCE_TEMPERATURE
    henry = I2_HENRY * e ** (I2_HENRY_SLOPE * x)  # mol/(m3 Pa)
    return free_share * gas_flow / (volume * henry * R * temperature)
