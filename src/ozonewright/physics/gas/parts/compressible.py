"""Pressure before a part from the pressure behind it, for a gas that gets thinner on its way."""

from __future__ import annotations

from math import inf, log, sqrt

from ozonewright.physics.gas.parts.law import Gas
from ozonewright.references.constants import R

CLOSE = 1e-13
"""Relative step at which the search for the inlet pressure ends; rounding is a thousandth of it."""


def mass_flux_square(*, flow: float, area: float, gas: Gas) -> float:
    """Square of the mass flux times R T/M: the unit in which squares of pressure are lost.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    area : float
        Free cross-section. [m2]
    gas : Gas
        What flows. [-]

    Returns
    -------
    square : float
        G^2 R T/M. [Pa2]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas at one temperature.

    Source
    ------
    tiesinga_2021, table 31
    """
    flux = flow * gas.wet * gas.molar_mass / area
    return flux * flux * R * gas.temperature / gas.molar_mass


def inlet_pressure(*, square: float, resistance: float, outlet_pressure: float) -> float:
    """Pressure before a tube in which an ideal gas flows at one temperature.

    Parameters
    ----------
    square : float
        G^2 R T/M of the flow. [Pa2]
    resistance : float
        Friction f L/d and all loss coefficients, above 0. [1]
    outlet_pressure : float
        Absolute pressure behind the tube. [Pa]

    Returns
    -------
    pressure : float
        Absolute pressure before the tube. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Isothermal: long thin tubes in a room. At the speed at which isothermal flow chokes, the
    pressure inside the end of the tube stays above the pressure behind it.

    Source
    ------
    shapiro_1953

    Notes
    -----
    p1^2 = p2^2 + (G^2 R T/M) (f L/d + K + 2 ln(p1/p2)); solved for p1^2 by Newton's method, which
    closes in from above because the left side less the right is convex.
    """
    end = outlet_pressure * outlet_pressure
    if square > end:
        end = square
    start = end + square * resistance
    x, step = start, inf
    while abs(step) > CLOSE * x:
        step = (x - start - square * log(x / end)) / (1.0 - square / x)
        x -= step
    return sqrt(x)


def inlet_pressure_of_loss(*, outlet_pressure: float, loss: float) -> float:
    """Pressure before a part whose loss was worked out at the density of its outlet.

    Parameters
    ----------
    outlet_pressure : float
        Absolute pressure behind the part. [Pa]
    loss : float
        Loss of pressure if the gas were as thin all along as at the outlet. [Pa]

    Returns
    -------
    pressure : float
        Absolute pressure before the part. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Losses that go with one over the density; ideal gas at one temperature.

    Source
    ------
    shapiro_1953

    Notes
    -----
    p dp is the same all along, so p1^2 - p2^2 = 2 p2 loss.
    """
    return sqrt(outlet_pressure * (outlet_pressure + 2.0 * loss))
