"""How much ozone a liquid holds against a gas."""

from __future__ import annotations

from math import e

from ozonewright.physics import Real
from ozonewright.references.constants import R

REFERENCE = 298.15
"""Temperature at which Henry constants are stated. [K]"""


def henry_constant(*, henry: Real, slope: Real, temperature: Real) -> Real:
    """Henry constant at another temperature than the one it is stated for.

    Parameters
    ----------
    henry : float
        At 25 °C. [mol/(m3 Pa)]
    slope : float
        d ln H/d(1/T). [K]
    temperature : float
        Of the liquid. [K]

    Returns
    -------
    henry : float
        At that temperature. [mol/(m3 Pa)]

    Raises
    ------
    None

    Valid
    -----
    Constant slope: 0..50 °C for ozone in water.

    Source
    ------
    sander_2023, definition of the two columns
    """
    return henry * e ** (slope * (1.0 / temperature - 1.0 / REFERENCE))


def partition(*, henry: Real, temperature: Real) -> Real:
    """Concentration in a liquid over that in the gas above it, from a Henry constant.

    Parameters
    ----------
    henry : float
        At the temperature. [mol/(m3 Pa)]
    temperature : float
        Of both. [K]

    Returns
    -------
    partition : float
        Amount per volume of liquid over amount per volume of gas. [1]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas, dilute solution.

    Source
    ------
    sander_2023, conversion H R T
    """
    return henry * R * temperature


def partition_morris_1988(*, celsius: Real) -> Real:
    """Concentration of ozone in water over that in the gas, by a review's straight line.

    Parameters
    ----------
    celsius : float
        Temperature on the Celsius scale. [1]

    Returns
    -------
    partition : float
        Amount per volume of liquid over amount per volume of gas. [1]

    Raises
    ------
    None

    Valid
    -----
    0..30 °C; the range is not visible in the text that quotes it.

    Source
    ------
    morris_1988, log10 S = -0.25 - 0.013 t
    """
    return 10.0 ** (-0.25 - 0.013 * celsius)


def salting_out(*, ionic_strength: Real, temperature: Real, coefficient: Real, slope: Real) -> Real:
    """Solubility in a salt solution over that in water.

    Parameters
    ----------
    ionic_strength : float
        Of the solution. [mol/L]
    temperature : float
        Of the solution. [K]
    coefficient : float
        Of ln(volatility) per ionic strength, the part without temperature. [L/mol]
    slope : float
        Its part over temperature. [K L/mol]

    Returns
    -------
    factor : float
        At most 1. [1]

    Raises
    ------
    None

    Valid
    -----
    0..0.6 mol/L at 5..30 °C (sodium sulfate, from memory); other salts differ by tens of per cent
    of the effect.

    Source
    ------
    kosak_channing_1983, ln K = ... + 2.659 mu - 688 mu/T

    Example
    -------
    0.5 mol/L at 25 °C: the volatility rises by 19 %.
    """
    return e ** (-(coefficient + slope / temperature) * ionic_strength)


def salting_by_acid(*, strength: Real, ratio: Real, at: Real) -> Real:
    """Solubility in acid over that in water, from one solution that was measured.

    Parameters
    ----------
    strength : float
        Acid in the solution. [mol/m3]
    ratio : float
        Solubility in the solution that was measured over that in water. [1]
    at : float
        Acid in that solution. [mol/m3]

    Returns
    -------
    factor : float
        At most 1 where the ratio is. [1]

    Raises
    ------
    None

    Valid
    -----
    Up to the acid that was measured, by Sechenov's exponential law.

    Source
    ------
    ershov_2015, one solution of sulfuric acid
    """
    return ratio ** (strength / at)


def partition_in_band(
    *, place: Real, low: Real, high: Real, cold_low: Real, cold_high: Real, warmth: Real
) -> Real:
    """Partition of ozone within a stated band that widens into the cold.

    Parameters
    ----------
    place : float
        Where in the band, on a logarithmic scale: 0 lowest, 1 highest. [1]
    low : float
        Of the band at the warm end. [1]
    high : float
        Of the band at the warm end. [1]
    cold_low : float
        How many times as much at the cold end, of the lowest. [1]
    cold_high : float
        The same of the highest. [1]
    warmth : float
        0 at the cold end, 1 at the warm end, straight in 1/T. [1]

    Returns
    -------
    partition : float
        Amount per volume of liquid over amount per volume of gas. [1]

    Raises
    ------
    None

    Valid
    -----
    A band, no measurement: -78..25 °C.

    Source
    ------
    bin_2006, the band of organic liquids, from memory
    """
    warm = low * (high / low) ** place
    cold = cold_low * (cold_high / cold_low) ** place
    return warm * cold ** (1.0 - warmth)


def warmth(*, temperature: Real, cold: Real, warm: Real) -> Real:
    """Place of a temperature between a cold and a warm one, straight in 1/T.

    Parameters
    ----------
    temperature : float
        Of the liquid. [K]
    cold : float
        The one end. [K]
    warm : float
        The other. [K]

    Returns
    -------
    warmth : float
        0 at the cold end, 1 at the warm end, outside beyond them. [1]

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
    return (1.0 / cold - 1.0 / temperature) / (1.0 / cold - 1.0 / warm)
