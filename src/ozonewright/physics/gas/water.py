"""Water vapour in gas."""

from __future__ import annotations

from math import e

from ozonewright.physics import Real

CRITICAL_TEMPERATURE = 647.096
CRITICAL_PRESSURE = 22.064e6
OVER_WATER = (
    (-7.85951783, 1.0),
    (1.84408259, 1.5),
    (-11.7866497, 3.0),
    (22.6807411, 3.5),
    (-15.9618719, 4.0),
    (1.80122502, 7.5),
)
"""Coefficient and power of each term over water."""

TRIPLE_TEMPERATURE = 273.16
TRIPLE_PRESSURE = 611.657
OVER_ICE = (
    (-21.2144006, 0.00333333333),
    (27.3203819, 1.20666667),
    (-6.1059813, 1.70333333),
)
"""Coefficient and power of each term over ice."""


def saturation_pressure_water(*, temperature: Real) -> Real:
    """Vapour pressure of liquid water.

    Parameters
    ----------
    temperature : float
        Of the water. [K]

    Returns
    -------
    pressure : float
        Partial pressure of water vapour. [Pa]

    Raises
    ------
    None

    Valid
    -----
    273.16..647 K; carried on over supercooled water, where it is within 1 % down to 243 K.

    Source
    ------
    wagner_2002

    Notes
    -----
    ln(p/pc) = Tc/T sum a_i tau^n_i, tau = 1 - T/Tc
    """
    tau = 1.0 - temperature / CRITICAL_TEMPERATURE
    total = sum(a * tau**n for a, n in OVER_WATER)
    return CRITICAL_PRESSURE * e ** (CRITICAL_TEMPERATURE / temperature * total)


def saturation_pressure_ice(*, temperature: Real) -> Real:
    """Vapour pressure of ice.

    Parameters
    ----------
    temperature : float
        Of the ice. [K]

    Returns
    -------
    pressure : float
        Partial pressure of water vapour. [Pa]

    Raises
    ------
    None

    Valid
    -----
    50..273.16 K.

    Source
    ------
    iapws_2011

    Notes
    -----
    ln(p/pt) = 1/theta sum a_i theta^b_i, theta = T/Tt
    """
    theta = temperature / TRIPLE_TEMPERATURE
    total = sum(a * theta**b for a, b in OVER_ICE)
    return TRIPLE_PRESSURE * e ** (total / theta)


def water_fraction(*, water_pressure: Real, pressure: Real) -> Real:
    """Mole fraction of water vapour in a gas.

    Parameters
    ----------
    water_pressure : float
        Partial pressure of water vapour. [Pa]
    pressure : float
        Absolute pressure of the gas. [Pa]

    Returns
    -------
    mole_fraction : float
        Water in the wet gas. [1]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas; what air adds to the vapour pressure of water (0.4 %) is left out.

    Source
    ------
    wagner_2002
    """
    return water_pressure / pressure
