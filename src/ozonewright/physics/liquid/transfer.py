"""Transfer coefficients on both sides of the surface of a bubble."""

from __future__ import annotations

from math import pi

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.gas.parts.threshold import GRAVITY


def kl_higbie_1935(*, diffusivity: Real, rise: Real, bubble: Real) -> Real:
    """Liquid-side transfer coefficient of a bubble whose surface is renewed as it rises.

    Parameters
    ----------
    diffusivity : float
        Of the gas in the liquid. [m2/s]
    rise : float
        Of the bubble. [m/s]
    bubble : float
        Its diameter. [m]

    Returns
    -------
    kl : float
        Through the liquid. [m/s]

    Raises
    ------
    None

    Valid
    -----
    Moving surface: above about 2.5 mm.

    Source
    ------
    higbie_1935, contact time of one diameter of rise

    Example
    -------
    3 mm in water of 20 °C: 4.271e-4 m/s for ozone.
    """
    return 2.0 * (diffusivity * rise / (pi * bubble)) ** 0.5


def kl_froessling_1938(
    *, diffusivity: Real, rise: Real, bubble: Real, kinematic_viscosity: Real
) -> Real:
    """Liquid-side transfer coefficient of a bubble whose surface stands still.

    Parameters
    ----------
    diffusivity : float
        Of the gas in the liquid. [m2/s]
    rise : float
        Of the bubble. [m/s]
    bubble : float
        Its diameter. [m]
    kinematic_viscosity : float
        Of the liquid. [m2/s]

    Returns
    -------
    kl : float
        Through the liquid. [m/s]

    Raises
    ------
    None

    Valid
    -----
    Balls: below about 0.8 mm.

    Source
    ------
    froessling_1938, Sh = 2 + 0.6 Re^(1/2) Sc^(1/3), from memory
    """
    reynolds: Real = rise * bubble / kinematic_viscosity
    schmidt: Real = kinematic_viscosity / diffusivity
    sherwood: Real = 2.0 + 0.6 * reynolds**0.5 * schmidt ** (1.0 / 3.0)
    return sherwood * diffusivity / bubble


def kl_calderbank_1961(*, diffusivity: Real, kinematic_viscosity: Real, large: bool) -> Real:
    """Liquid-side transfer coefficient of a swarm, by the one of two laws for its bubbles.

    Parameters
    ----------
    diffusivity : float
        Of the gas in the liquid. [m2/s]
    kinematic_viscosity : float
        Of the liquid. [m2/s]
    large : bool
        Bubbles above 2.5 mm. [-]

    Returns
    -------
    kl : float
        Through the liquid. [m/s]

    Raises
    ------
    None

    Valid
    -----
    Liquid much denser than the gas.

    Source
    ------
    calderbank_1961, 0.42 Sc^(-1/2) and 0.31 Sc^(-2/3) times (nu g)^(1/3), from memory

    Example
    -------
    Ozone in water of 20 °C: 3.712e-4 m/s large, 9.467e-5 m/s small.
    """
    schmidt: Real = kinematic_viscosity / diffusivity
    scale: Real = (kinematic_viscosity * GRAVITY) ** (1.0 / 3.0)
    return 0.42 * schmidt**-0.5 * scale if large else 0.31 * schmidt ** (-2.0 / 3.0) * scale


def kl_lamont_1970(*, diffusivity: Real, kinematic_viscosity: Real, power: Real) -> Real:
    """Liquid-side transfer coefficient from the power that stirs the liquid.

    Parameters
    ----------
    diffusivity : float
        Of the gas in the liquid. [m2/s]
    kinematic_viscosity : float
        Of the liquid. [m2/s]
    power : float
        Dissipated in a mass of liquid; of rising gas: superficial velocity times g. [W/kg]

    Returns
    -------
    kl : float
        Through the liquid. [m/s]

    Raises
    ------
    None

    Valid
    -----
    Stirred liquids; for bubble columns a comparison.

    Source
    ------
    linek_2004, 0.523 (eps nu)^(1/4) (D/nu)^(1/2)

    Example
    -------
    1 W/kg, ozone in water of 20 °C: 6.83e-4 m/s.
    """
    return (
        0.523 * (power * kinematic_viscosity) ** 0.25 * (diffusivity / kinematic_viscosity) ** 0.5
    )


def mobility(*, bubble: Real, still: Real, moving: Real) -> Real:
    """How far the surface of a bubble moves, from its size.

    Parameters
    ----------
    bubble : float
        Its diameter. [m]
    still : float
        Diameter below which the surface stands still. [m]
    moving : float
        Diameter above which it moves freely. [m]

    Returns
    -------
    mobility : float
        0 still, 1 moving; straight in the logarithm of the diameter. [1]

    Raises
    ------
    None

    Valid
    -----
    Liquids that are not specially clean.

    Source
    ------
    calderbank_1961, two laws with a range between; the passage is common practice
    """
    return np.clip(np.log(bubble / still) / np.log(moving / still), 0.0, 1.0)


def kl_of_bubble(*, still: Real, moving: Real, mobility: Real) -> Real:
    """Liquid-side transfer coefficient between that of a still and of a moving surface.

    Parameters
    ----------
    still : float
        Of a still surface. [m/s]
    moving : float
        Of a moving surface. [m/s]
    mobility : float
        0 still, 1 moving. [1]

    Returns
    -------
    kl : float
        The geometric mean, weighted. [m/s]

    Raises
    ------
    None

    Valid
    -----
    As the two.

    Source
    ------
    froessling_1938
    higbie_1935
    """
    return still ** (1.0 - mobility) * moving**mobility


def kg_newman_1931(*, diffusivity: Real, bubble: Real) -> Real:
    """Gas-side transfer coefficient inside a bubble whose gas does not circulate.

    Parameters
    ----------
    diffusivity : float
        Of ozone in the gas. [m2/s]
    bubble : float
        Its diameter. [m]

    Returns
    -------
    kg : float
        Through the gas. [m/s]

    Raises
    ------
    None

    Valid
    -----
    The least there is: gas that circulates transfers up to 2.7 times this.

    Source
    ------
    newman_1931, Sh = 2 pi^2/3 after the first moments, from memory
    """
    return 2.0 * pi**2 / 3.0 * diffusivity / bubble


def overall(*, kg: Real, kl: Real, partition: Real, enhancement: Real) -> Real:
    """Transfer coefficient through gas and liquid together, based on the gas.

    Parameters
    ----------
    kg : float
        Through the gas. [m/s]
    kl : float
        Through the liquid, without reaction. [m/s]
    partition : float
        Concentration in the liquid over that in the gas. [1]
    enhancement : float
        How many times a reaction speeds the liquid's side. [1]

    Returns
    -------
    coefficient : float
        Amount per area and time over concentration in the gas. [m/s]

    Raises
    ------
    None

    Valid
    -----
    Two films in series.

    Source
    ------
    calderbank_1961, two resistances in series
    """
    return 1.0 / (1.0 / kg + 1.0 / (partition * enhancement * kl))
