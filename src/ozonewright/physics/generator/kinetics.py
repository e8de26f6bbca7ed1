"""Rate constants of the gas in a discharge, at one temperature and pressure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import e, log10

import numpy as np

from ozonewright.physics import Real
from ozonewright.references.constants import R
from ozonewright.references.discharge import PER_MOLE, Arrhenius, gas_rate

BROADENING = 0.6
"""Of the fall-off between the low- and the high-pressure limit (burkholder_2019, section 2)."""
N2O5_BALANCE = (1.72e26 / PER_MOLE, 10840.0)
"""1/K = a exp(-b / T) in mol/m³ and K (burkholder_2019, as the file cracmm2 prints it)."""


@dataclass(frozen=True, slots=True)
class Oxygen:
    """What atoms and ozone do, in SI on moles; three-body constants hold their third body."""

    density: Real
    """Of the gas. [mol/m3]"""
    o_o2: Real
    o_o3: Real
    o3_apart: Real
    """[1/s]"""


@dataclass(frozen=True, slots=True)
class Nitrogen:
    """What nitrogen oxides do, in m3/(mol s); `n2o5_apart` in 1/s."""

    no_o3: Real
    no2_o3: Real
    no2_o: Real
    no_o: Real
    no3_no: Real
    no3_no2: Real
    no3_o: Real
    n2o5_apart: Real
    oh_no2: Real


@dataclass(frozen=True, slots=True)
class Water:
    """What hydrogen radicals and O(1D) do, in m3/(mol s)."""

    o1d_o2: Real
    o1d_n2: Real
    o1d_h2o: Real
    h_o2: Real
    h_o3: Real
    oh_o3: Real
    ho2_o3: Real
    o_oh: Real
    o_ho2: Real
    oh_ho2: Real
    ho2_ho2: Real


def arrhenius(*, a: float, n: float, b: float, temperature: Real) -> Real:
    """Rate constant of a reaction between gases at a temperature.

    Parameters
    ----------
    a : float
        At 300 K without the exponent; of two bodies, or with its density of three. [m3/(mol s)]
    n : float
        Power of the temperature. [1]
    b : float
        Activation energy over R. [K]
    temperature : float
        Of the gas. [K]

    Returns
    -------
    k : float
        Rate constant, in the unit of `a`. [m3/(mol s)]

    Raises
    ------
    None

    Valid
    -----
    Where its a, n and b were fitted, mostly 200..400 K.

    Source
    ------
    burkholder_2019, section 1
    atkinson_2004

    Notes
    -----
    k = a (T / 300 K)^n exp(-b / T)
    """
    return a * (temperature / 300.0) ** n * e ** (-b / temperature)


def fall_off(*, low: Real, high: Real) -> Real:
    """Rate constant of an association between its limits of pressure.

    Parameters
    ----------
    low : float
        Low-pressure limit with the density of the gas. [m3/(mol s)]
    high : float
        High-pressure limit. [m3/(mol s)]

    Returns
    -------
    k : float
        At that density. [m3/(mol s)]

    Raises
    ------
    None

    Valid
    -----
    As the limits; broadening 0.6 for every reaction.

    Source
    ------
    burkholder_2019, section 2 (from memory)

    Notes
    -----
    k = low / (1 + low / high) 0.6^(1 / (1 + log10(low / high)²))
    """
    ratio = low / high
    decades = _log10(ratio)
    return low / (1.0 + ratio) * BROADENING ** (1.0 / (1.0 + decades * decades))


def oxygen_rates(*, temperature: Real, pressure: Real, oxygen: Real) -> Oxygen:
    """Rate constants of atoms and ozone in a gas of oxygen and nitrogen.

    Parameters
    ----------
    temperature : float
        Of the gas. [K]
    pressure : float
        Absolute. [Pa]
    oxygen : float
        Mole fraction of the feed; the rest counts as nitrogen for the third body. [1]

    Returns
    -------
    rates : Oxygen
        At that state. [-]

    Raises
    ------
    None

    Valid
    -----
    250..450 K; pressures at which O + O2 + M is of third order, up to some bar.

    Source
    ------
    atkinson_2004
    burkholder_2019
    mcbride_2002

    Notes
    -----
    Ozone falls apart with the same third bodies that it was made with: the two are in balance.
    """
    k = _at(temperature)
    density = pressure / (R * temperature)
    with_oxygen = k("O_O2_O2")
    third = oxygen * with_oxygen + (1.0 - oxygen) * k("O_O2_N2")
    apart = k("O3_O2") * third / with_oxygen
    return Oxygen(density, third * density, k("O_O3"), apart * density)


def nitrogen_rates(*, temperature: Real, density: Real) -> Nitrogen:
    """Rate constants of nitrogen oxides.

    Parameters
    ----------
    temperature : float
        Of the gas. [K]
    density : float
        Of the gas. [mol/m3]

    Returns
    -------
    rates : Nitrogen
        At that state. [-]

    Raises
    ------
    None

    Valid
    -----
    250..400 K, near ambient pressure.

    Source
    ------
    burkholder_2019
    """
    k = _at(temperature)
    joined = fall_off(low=k("NO3_NO2_LOW") * density, high=k("NO3_NO2_HIGH"))
    balance, activation = N2O5_BALANCE
    return Nitrogen(
        no_o3=k("NO_O3"),
        no2_o3=k("NO2_O3"),
        no2_o=k("NO2_O"),
        no_o=fall_off(low=k("O_NO_LOW") * density, high=k("O_NO_HIGH")),
        no3_no=k("NO3_NO"),
        no3_no2=joined,
        no3_o=k("NO3_O"),
        n2o5_apart=balance * e ** (-activation / temperature) * joined,
        oh_no2=fall_off(low=k("OH_NO2_LOW") * density, high=k("OH_NO2_HIGH")),
    )


def water_rates(*, temperature: Real, density: Real) -> Water:
    """Rate constants of what water vapour becomes in a discharge.

    Parameters
    ----------
    temperature : float
        Of the gas. [K]
    density : float
        Of the gas. [mol/m3]

    Returns
    -------
    rates : Water
        At that state. [-]

    Raises
    ------
    None

    Valid
    -----
    250..400 K, near ambient pressure.

    Source
    ------
    burkholder_2019
    sander_2011
    """
    k = _at(temperature)
    return Water(
        o1d_o2=k("O1D_O2"),
        o1d_n2=k("O1D_N2"),
        o1d_h2o=k("O1D_H2O"),
        h_o2=k("H_O2_M") * density,
        h_o3=k("H_O3"),
        oh_o3=k("OH_O3"),
        ho2_o3=k("HO2_O3"),
        o_oh=k("O_OH"),
        o_ho2=k("O_HO2"),
        oh_ho2=k("OH_HO2"),
        ho2_ho2=k("HO2_HO2") + k("HO2_HO2_M") * density,
    )


def _at(temperature: Real) -> Callable[[str], Real]:
    def rate(name: str) -> Real:
        known: Arrhenius = gas_rate(name)
        return arrhenius(a=known.a, n=known.n, b=known.b, temperature=temperature)

    return rate


def _log10(value: Real) -> Real:
    """Return the logarithm; a float stays a float, which is quicker than numpy's."""
    return log10(value) if isinstance(value, float) else np.log10(value)
