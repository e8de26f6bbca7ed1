"""Air through the box of a tube: what it warms by, what a fan moves."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import M_AIR, R
from ozonewright.references.discharge import belief

HEAT_CAPACITY = belief("HEAT_CAPACITY").centre.value


def air_rise(*, heat: Real, flow: Real, temperature: Real, pressure: Real) -> Real:
    """How much warmer air is behind a box than before it.

    Parameters
    ----------
    heat : float
        Given to the air in the box. [W]
    flow : float
        Of the air that comes in, above zero. [m3/s]
    temperature : float
        Of that air. [K]
    pressure : float
        Of that air. [Pa]

    Returns
    -------
    rise : float
        Of the air that leaves. [K]

    Raises
    ------
    None

    Valid
    -----
    Air well mixed in the box; no heat through the walls.

    Source
    ------
    incropera_2007, balance of energy

    Notes
    -----
    P / (n c_p) with n = p q / (R T)
    """
    return heat * R * temperature / (pressure * flow * HEAT_CAPACITY)


def air_needed(*, heat: Real, rise: Real, temperature: Real, pressure: Real) -> Real:
    """Air that must pass a box so that it warms by no more than a rise.

    Parameters
    ----------
    heat : float
        Given to the air in the box. [W]
    rise : float
        Allowed, above zero. [K]
    temperature : float
        Of the air that comes in. [K]
    pressure : float
        Of that air. [Pa]

    Returns
    -------
    flow : float
        Of the air that comes in. [m3/s]

    Raises
    ------
    None

    Valid
    -----
    As `air_rise`.

    Source
    ------
    incropera_2007, balance of energy
    """
    return heat * R * temperature / (pressure * rise * HEAT_CAPACITY)


def air_density(*, temperature: Real, pressure: Real) -> Real:
    """Density of dry air.

    Parameters
    ----------
    temperature : float
        Of the air. [K]
    pressure : float
        Of the air. [Pa]

    Returns
    -------
    density : float
        Of the air. [kg/m3]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas.

    Source
    ------
    picard_2008
    """
    return pressure * M_AIR / (R * temperature)


def fan_flow(*, free_flow: Real, shut_off: Real, resistance: Real) -> Real:
    """Flow of a fan that works against openings.

    Parameters
    ----------
    free_flow : float
        Without any back pressure. [m3/s]
    shut_off : float
        Pressure at which nothing flows any more. [Pa]
    resistance : float
        Pressure lost over the square of the flow. [Pa s2/m6]

    Returns
    -------
    flow : float
        Where fan and openings agree. [m3/s]

    Raises
    ------
    None

    Valid
    -----
    A straight line between free flow and shut-off; a small axial fan sags below it in the middle.

    Source
    ------
    incropera_2007, losses in flow

    Notes
    -----
    p0 (1 - q/q0) = K q², solved so that no resistance gives the free flow
    """
    slope = shut_off / free_flow
    return 2.0 * shut_off / (slope + (slope**2 + 4.0 * resistance * shut_off) ** 0.5)


def opening_resistance(*, area: Real, density: Real, discharge: Real) -> Real:
    """Pressure that openings in and out of a box take, over the square of the flow.

    Parameters
    ----------
    area : float
        Free area of the openings in; those out are taken as large. [m2]
    density : float
        Of the air. [kg/m3]
    discharge : float
        Coefficient of discharge of a sharp opening. [1]

    Returns
    -------
    resistance : float
        Of both in a row. [Pa s2/m6]

    Raises
    ------
    None

    Valid
    -----
    Sharp edges, turbulent.

    Source
    ------
    incropera_2007, losses in flow

    Notes
    -----
    2 · rho / (2 (C A)²)
    """
    return density / (discharge * area) ** 2
