"""Air that carries a tube's heat away: through its box, and across the tube."""

from __future__ import annotations

from math import pi

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import OutOfBounds
from ozonewright.physics import Real
from ozonewright.references.constants import M_AIR, R
from ozonewright.references.discharge import belief

HEAT_CAPACITY = belief("HEAT_CAPACITY").centre.value
PRANDTL = 0.71
"""Of air near room temperature (incropera_2007, table of air, from memory)."""
GRAVITY = 9.80665
"""m/s2, standard."""
STEFAN_BOLTZMANN = 5.670374e-8
"""W/(m2 K4); exact since 2019, cut (tiesinga_2021, from memory)."""
EMISSIVITY = 0.9
"""Of glass, paint and oxidised metal (common practice, no source); bright metal far less."""
HOTTEST = 600.0
"""K: rises are sought up to here."""
STEPS = 50
"""Of halving: more than a thermometer can tell."""


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


def across_churchill_1977(*, reynolds: Real, prandtl: Real) -> Real:
    """Nusselt number of a cylinder across a stream.

    Parameters
    ----------
    reynolds : float
        On the diameter. [1]
    prandtl : float
        Of the gas. [1]

    Returns
    -------
    nusselt : float
        Mean over the cylinder. [1]

    Raises
    ------
    None

    Valid
    -----
    Re Pr above 0.2; within 20 to 30 %.

    Source
    ------
    churchill_1977

    Notes
    -----
    0.3 + 0.62 Re^½ Pr^⅓ (1 + (0.4/Pr)^⅔)^-¼ (1 + (Re/282000)^⅝)^⅘
    """
    spread = (1.0 + (0.4 / prandtl) ** (2.0 / 3.0)) ** 0.25
    rough = (1.0 + (reynolds / 282000.0) ** 0.625) ** 0.8
    return 0.3 + 0.62 * reynolds**0.5 * prandtl ** (1.0 / 3.0) / spread * rough


def still_churchill_1975(*, rayleigh: Real, prandtl: Real) -> Real:
    """Nusselt number of a horizontal cylinder in still air.

    Parameters
    ----------
    rayleigh : float
        On the diameter. [1]
    prandtl : float
        Of the gas. [1]

    Returns
    -------
    nusselt : float
        Mean over the cylinder. [1]

    Raises
    ------
    None

    Valid
    -----
    Ra up to 1e12; a long horizontal cylinder, free all around.

    Source
    ------
    churchill_1975

    Notes
    -----
    (0.60 + 0.387 Ra^⅙ (1 + (0.559/Pr)^(9/16))^(-8/27))²
    """
    spread = (1.0 + (0.559 / prandtl) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    return (0.60 + 0.387 * rayleigh ** (1.0 / 6.0) / spread) ** 2


def heat_given_off(
    *,
    rise: Real,
    air: Real,
    pressure: Real,
    velocity: Real,
    diameter: Real,
    length: Real,
    viscosity: Real,
    films: Real,
) -> Real:
    """Heat that a tube gives to air and to what stands around it.

    Parameters
    ----------
    rise : float
        Of the tube over the air, above zero. [K]
    air : float
        Temperature of the air. [K]
    pressure : float
        Of the air. [Pa]
    velocity : float
        Of the air across the tube; nought is still air. [m/s]
    diameter : float
        Outside. [m]
    length : float
        That is warm. [m]
    viscosity : float
        Of air. [Pa s]
    films : float
        Factor on the correlations, for their doubt. [1]

    Returns
    -------
    heat : float
        By film and radiation. [W]

    Raises
    ------
    None

    Valid
    -----
    As the correlations: the larger of stream and still air counts; surroundings as warm as the air.

    Source
    ------
    churchill_1977
    churchill_1975
    incropera_2007, radiation to large surroundings
    """
    mean = air + 0.5 * rise
    density = air_density(temperature=mean, pressure=pressure)
    capacity = HEAT_CAPACITY / M_AIR
    conductivity = viscosity * capacity / PRANDTL
    reynolds = density * velocity * diameter / viscosity
    diffusivity = viscosity / density / PRANDTL
    rayleigh = GRAVITY * rise / mean * diameter**3 * density / viscosity / diffusivity
    nusselt = np.maximum(
        across_churchill_1977(reynolds=reynolds, prandtl=PRANDTL),
        still_churchill_1975(rayleigh=rayleigh, prandtl=PRANDTL),
    )
    area = pi * diameter * length
    film = films * nusselt * conductivity / diameter
    shine = EMISSIVITY * STEFAN_BOLTZMANN * ((air + rise) ** 4 - air**4)
    return area * (film * rise + shine)


def rise_of_heat(
    *,
    heat: Real,
    air: Real,
    pressure: Real,
    velocity: Real,
    diameter: Real,
    length: Real,
    viscosity: Real,
    films: Real,
) -> Real:
    """How much warmer than the air a tube becomes that must give off so much heat.

    Parameters
    ----------
    heat : float
        Of the tube. [W]
    air : float
        Temperature of the air. [K]
    pressure : float
        Of the air. [Pa]
    velocity : float
        Of the air across the tube; nought is still air. [m/s]
    diameter : float
        Outside. [m]
    length : float
        That is warm. [m]
    viscosity : float
        Of air. [Pa s]
    films : float
        Factor on the correlations, for their doubt. [1]

    Returns
    -------
    rise : float
        Over the air. [K]

    Raises
    ------
    OutOfBounds
        The tube would be hotter than 600 K.

    Valid
    -----
    As `heat_given_off`.

    Source
    ------
    churchill_1977
    churchill_1975
    """
    given = {
        "air": air, "pressure": pressure, "velocity": velocity, "diameter": diameter,
        "length": length, "viscosity": viscosity, "films": films,
    }  # fmt: skip
    shape = np.broadcast(heat, *given.values()).shape
    low: NDArray[np.float64] = np.full(shape, 1e-6)
    high: NDArray[np.float64] = np.broadcast_to(HOTTEST - np.asarray(air), shape).astype(float)
    if np.any(heat_given_off(rise=high, **given) < heat):
        raise OutOfBounds(
            "so much heat would make this tube hotter than 327 °C",
            where="heat",
            got=f"{np.max(heat):.3g} W",
            fix="Look at heat, diameter and length; such a tube needs a fan, or water.",
        )
    for _ in range(STEPS):
        middle = 0.5 * (low + high)
        over = heat_given_off(rise=middle, **given) > heat
        low, high = np.where(over, low, middle), np.where(over, middle, high)
    found = 0.5 * (low + high)
    return found if found.ndim else float(found)
