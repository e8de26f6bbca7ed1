"""Solvent vapour in gas: its pressure, its share, what is carried off, how cold is enough."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from ozonewright.errors import NotApplicable
from ozonewright.physics import Real
from ozonewright.references.constants import NORMAL_TEMPERATURE as ZERO

HALVINGS = 60
"""Bisections: a range of some hundred kelvin is halved below a billionth of a kelvin."""


def vapour_pressure_wagner25(
    *,
    temperature: Real,
    critical_temperature: float,
    critical_pressure: float,
    a: float,
    b: float,
    c: float,
    d: float,
) -> Real:
    """Vapour pressure over a liquid by Wagner's equation in its 2.5, 5 form.

    Parameters
    ----------
    temperature : float
        Of the liquid. [K]
    critical_temperature : float
        Of the substance. [K]
    critical_pressure : float
        Of the substance. [Pa]
    a : float
        First coefficient. [1]
    b : float
        Second coefficient. [1]
    c : float
        Third coefficient. [1]
    d : float
        Fourth coefficient. [1]

    Returns
    -------
    pressure : float
        Of the vapour in balance with the liquid. [Pa]

    Raises
    ------
    None

    Valid
    -----
    From the melting to the critical point; below melting it is above that of the solid.

    Source
    ------
    chemicals_library

    Notes
    -----
    ln(p/p_c) = (a t + b t^1.5 + c t^2.5 + d t^5) T_c/T with t = 1 - T/T_c
    """
    t = 1.0 - temperature / critical_temperature
    exponent = (a * t + b * t**1.5 + c * t**2.5 + d * t**5) * critical_temperature / temperature
    found: Real = critical_pressure * np.exp(exponent)
    return found


def vapour_pressure_dippr101(
    *, temperature: Real, a: float, b: float, c: float, d: float, e: float
) -> Real:
    """Vapour pressure over a liquid by the five-coefficient equation of handbook tables.

    Parameters
    ----------
    temperature : float
        Of the liquid. [K]
    a : float
        First coefficient, of ln Pa. [1]
    b : float
        Second coefficient. [K]
    c : float
        Third coefficient. [1]
    d : float
        Fourth coefficient, in kelvin to the power -e. [-]
    e : float
        Fifth coefficient. [1]

    Returns
    -------
    pressure : float
        Of the vapour in balance with the liquid. [Pa]

    Raises
    ------
    None

    Valid
    -----
    From the melting to the critical point; below melting it is above that of the solid.

    Source
    ------
    chemicals_library

    Notes
    -----
    ln p = a + b/T + c ln T + d T^e
    """
    found: Real = np.exp(a + b / temperature + c * np.log(temperature) + d * temperature**e)
    return found


def vapour_fraction(*, vapour_pressure: Real, pressure: Real) -> Real:
    """Vapour in gas that is saturated with it.

    Parameters
    ----------
    vapour_pressure : float
        Of the liquid at its temperature. [Pa]
    pressure : float
        Absolute pressure of the gas. [Pa]

    Returns
    -------
    fraction : float
        Mole fraction; one and above where the liquid boils. [1]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas over one pure liquid; gas that has not met all of the liquid holds less.

    Source
    ------
    stoichiometry
    """
    return vapour_pressure / pressure


def vapour_carried(*, gas_flow: Real, fraction: Real, molar_mass: Real) -> Real:
    """Liquid that gas carries off as vapour when it leaves saturated.

    Parameters
    ----------
    gas_flow : float
        Dry gas. [mol/s]
    fraction : float
        Vapour in the gas that leaves, below one. [1]
    molar_mass : float
        Of the liquid. [kg/mol]

    Returns
    -------
    mass_rate : float
        Of the liquid. [kg/s]

    Raises
    ------
    None

    Valid
    -----
    As `vapour_fraction`: an upper end.

    Source
    ------
    stoichiometry

    Notes
    -----
    n x / (1 - x) M
    """
    return gas_flow * fraction / (1.0 - fraction) * molar_mass


def temperature_of_vapour_pressure(
    *, target: float, pressure_at: Callable[[float], float], low: float, high: float
) -> float:
    """Temperature at which a liquid has a stated vapour pressure.

    Parameters
    ----------
    target : float
        Vapour pressure asked for. [Pa]
    pressure_at : callable
        Vapour pressure from temperature, rising. [-]
    low : float
        Where the search begins, such as the melting point. [K]
    high : float
        Where it ends, such as the critical point. [K]

    Returns
    -------
    temperature : float
        Of the liquid. [K]

    Raises
    ------
    NotApplicable
        The target is not between the pressures at the two ends.

    Valid
    -----
    Where the equation holds.

    Source
    ------
    stoichiometry

    Notes
    -----
    Bisection: the equation rises with temperature.
    """
    if not pressure_at(low) <= target <= pressure_at(high):
        raise NotApplicable(
            "no temperature of the liquid has this vapour pressure",
            got=f"{target:.4g} Pa",
            fix="Below melting the solid has less; above the critical point is no liquid.",
        )
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        if pressure_at(middle) < target:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def share_of_lower_limit(*, fractions: Sequence[Real], limits: Sequence[float]) -> Real:
    """How much of the lower flammable limit the vapours of one or several solvents use up.

    Parameters
    ----------
    fractions : sequence of float
        Each vapour in the gas. [1]
    limits : sequence of float
        Lower limit of each. [1]

    Returns
    -------
    share : float
        One at the limit. [1]

    Raises
    ------
    None

    Valid
    -----
    One vapour: exact. Several: Le Chatelier's rule, for vapours that burn alike (from memory).

    Source
    ------
    stoichiometry
    """
    parts = [fraction / limit for fraction, limit in zip(fractions, limits, strict=True)]
    return sum(parts[1:], parts[0])


def spread_of_equation(*, temperature: Real, warm: Real, cold_spread: Real, cold: Real) -> Real:
    """Relative uncertainty of a vapour pressure, between what it is warm and what it is cold.

    Parameters
    ----------
    temperature : float
        Of the liquid. [K]
    warm : float
        Relative standard uncertainty at 0 °C and above. [1]
    cold_spread : float
        The same at the cold end. [1]
    cold : float
        Temperature of the cold end, below 0 °C. [K]

    Returns
    -------
    spread : float
        Relative standard uncertainty. [1]

    Raises
    ------
    None

    Valid
    -----
    Taken as straight between the ends, and going on below the cold one.

    Source
    ------
    chemicals_library, spread between its tables
    """
    share = np.subtract(ZERO, temperature) / np.subtract(ZERO, cold)
    found: Real = np.where(temperature >= ZERO, warm, warm + (cold_spread - warm) * share)[()]
    return found
