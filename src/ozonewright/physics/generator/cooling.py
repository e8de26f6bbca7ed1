"""What a tube gives off to the air around it: by a stream across, by still air, by radiation."""

from __future__ import annotations

from math import pi

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import OutOfBounds
from ozonewright.physics import Real
from ozonewright.physics.generator.box_air import air_density
from ozonewright.references.constants import M_AIR
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
