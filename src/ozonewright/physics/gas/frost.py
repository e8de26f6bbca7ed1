"""Frost point: the ice curve read backwards."""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.gas.water import (
    TRIPLE_PRESSURE,
    TRIPLE_TEMPERATURE,
    saturation_pressure_ice,
)

STEEPNESS = 6140.0
"""Fall of ln p with 1/T along the ice curve, in K; within 1 %. It only steers the search."""
ROUNDS = 12
"""Each round leaves about a hundredth of the error; ten are more than a float can hold."""


def frost_point(*, water_pressure: Real) -> Real:
    """Temperature at which ice and the water vapour of a gas are in balance.

    Parameters
    ----------
    water_pressure : float
        Partial pressure of water vapour. [Pa]

    Returns
    -------
    frost_point : float
        Of the gas. [K]

    Raises
    ------
    None

    Valid
    -----
    1e-9..611.657 Pa, 133..273.16 K; what air adds to the vapour pressure of ice (0.4 %) is left
    out.

    Source
    ------
    iapws_2011

    Notes
    -----
    The inverse of the ice curve: ln p is nearly straight in 1/T, so each round moves 1/T by the
    difference in ln p that is left.
    """
    inverse = 1.0 / TRIPLE_TEMPERATURE - np.log(water_pressure / TRIPLE_PRESSURE) / STEEPNESS
    for _ in range(ROUNDS):
        reached = saturation_pressure_ice(temperature=1.0 / inverse)
        inverse = inverse + np.log(reached / water_pressure) / STEEPNESS
    return 1.0 / inverse
