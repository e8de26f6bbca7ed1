"""Bubbles: how large a sparger makes them, how fast they rise, how much gas they hold."""

from __future__ import annotations

from math import pi

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.gas.parts.threshold import GRAVITY


def bubble_tate_1864(*, orifice: Real, surface_tension: Real, density: Real) -> Real:
    """Diameter of a bubble that leaves an opening slowly.

    Parameters
    ----------
    orifice : float
        Diameter of the opening. [m]
    surface_tension : float
        Of the liquid. [N/m]
    density : float
        Of the liquid, less that of the gas. [kg/m3]

    Returns
    -------
    bubble : float
        Diameter of a ball of the same volume. [m]

    Raises
    ------
    None

    Valid
    -----
    Slow gas (bubbles one by one); openings below about 6 mm in water.

    Source
    ------
    tate_1864, balance of buoyancy and surface tension

    Example
    -------
    1.00 mm in water of 20 °C: 3.547 mm.
    """
    return (6.0 * surface_tension * orifice / (GRAVITY * density)) ** (1.0 / 3.0)


def bubble_davidson_1960(*, flow: Real) -> Real:
    """Diameter of a bubble from an opening that gives a constant flow into a thin liquid.

    Parameters
    ----------
    flow : float
        Of gas through the opening, at the pressure there. [m3/s]

    Returns
    -------
    bubble : float
        Diameter of a ball of the same volume. [m]

    Raises
    ------
    None

    Valid
    -----
    Liquids as thin as water, no surface tension; above it the larger of this and Tate's holds.

    Source
    ------
    davidson_1960, V = 1.138 Q^1.2/g^0.6, from memory

    Example
    -------
    1.00 L/min: 10.07 mm.
    """
    volume: Real = 1.138 * flow**1.2 / GRAVITY**0.6
    return (6.0 * volume / pi) ** (1.0 / 3.0)


def rise_mendelson_1967(*, bubble: Real, surface_tension: Real, density: Real) -> Real:
    """Rise of a single bubble that is large enough to wobble.

    Parameters
    ----------
    bubble : float
        Diameter of a ball of the same volume. [m]
    surface_tension : float
        Of the liquid. [N/m]
    density : float
        Of the liquid. [kg/m3]

    Returns
    -------
    rise : float
        Against still liquid. [m/s]

    Raises
    ------
    None

    Valid
    -----
    1.4..20 mm in clean water; from about 2.5 mm in water that is not clean.

    Source
    ------
    mendelson_1967, from memory

    Example
    -------
    3 mm in water of 20 °C: 0.2516 m/s.
    """
    return (2.0 * surface_tension / (density * bubble) + 0.5 * GRAVITY * bubble) ** 0.5


def rise_ferguson_2004(*, bubble: Real, viscosity: Real, density: Real) -> Real:
    """Rise of a bubble whose surface stands still, like a ball.

    Parameters
    ----------
    bubble : float
        Its diameter. [m]
    viscosity : float
        Of the liquid. [Pa s]
    density : float
        Of the liquid. [kg/m3]

    Returns
    -------
    rise : float
        Against still liquid. [m/s]

    Raises
    ------
    None

    Valid
    -----
    Any size of ball; within 25 % of rigid bubbles of 0.1..2.5 mm.

    Source
    ------
    ferguson_2004, constants 18 and 0.4 of smooth balls, from memory
    """
    thin = 18.0 * viscosity / density
    return GRAVITY * bubble**2 / (thin + (0.75 * 0.4 * GRAVITY * bubble**3) ** 0.5)


def rise(*, bubble: Real, viscosity: Real, surface_tension: Real, density: Real) -> Real:
    """Rise of a single bubble in a liquid that is not specially clean.

    Parameters
    ----------
    bubble : float
        Diameter of a ball of the same volume. [m]
    viscosity : float
        Of the liquid. [Pa s]
    surface_tension : float
        Of the liquid. [N/m]
    density : float
        Of the liquid. [kg/m3]

    Returns
    -------
    rise : float
        The slower of a ball and a wobbling bubble. [m/s]

    Raises
    ------
    None

    Valid
    -----
    0.1..20 mm.

    Source
    ------
    ferguson_2004
    mendelson_1967
    """
    ball = rise_ferguson_2004(bubble=bubble, viscosity=viscosity, density=density)
    wave = rise_mendelson_1967(bubble=bubble, surface_tension=surface_tension, density=density)
    return np.minimum(ball, wave)


def height_of_liquid(*, volume: Real, bore: Real) -> Real:
    """Height of the liquid in a straight bottle.

    Parameters
    ----------
    volume : float
        Of liquid. [m3]
    bore : float
        Inner diameter of the bottle. [m]

    Returns
    -------
    height : float
        Over a flat bottom. [m]

    Raises
    ------
    None

    Valid
    -----
    No gas in the liquid.

    Source
    ------
    geometry
    """
    return volume / (0.25 * pi * bore**2)


def superficial(*, flow: Real, section: Real) -> Real:
    """Flow of gas over the section of the bottle.

    Parameters
    ----------
    flow : float
        Of gas. [m3/s]
    section : float
        Of the bottle. [m2]

    Returns
    -------
    velocity : float
        As if the bottle were empty. [m/s]

    Raises
    ------
    None

    Valid
    -----
    Any.

    Source
    ------
    geometry
    """
    return flow / section


def gas_hold_up_nicklin_1962(*, superficial: Real, rise: Real) -> Real:
    """Share of gas in bubbled liquid that does not flow itself.

    Parameters
    ----------
    superficial : float
        Flow of gas over the section. [m/s]
    rise : float
        Of a single bubble. [m/s]

    Returns
    -------
    hold_up : float
        Gas over gas and liquid. [1]

    Raises
    ------
    None

    Valid
    -----
    Separate bubbles: superficial velocity below about 0.05 m/s.

    Source
    ------
    nicklin_1962, bubbles move at their own rise and the superficial velocity together; from memory
    """
    return superficial / (superficial + rise)
