"""Ozone from absorbance: in the gas, as triiodide, and as bleached indigo."""

from __future__ import annotations

from math import log

from ozonewright.physics import Real
from ozonewright.references.constants import R, constant

AVOGADRO = constant("AVOGADRO").value


def ozone_fraction_from_absorbance(
    *, absorbance: Real, absorptivity: Real, path: Real, temperature: Real, pressure: Real
) -> Real:
    """Mole fraction of ozone in a gas from the absorbance of a cell.

    Parameters
    ----------
    absorbance : float
        Decadic, less that of the same gas without ozone. [1]
    absorptivity : float
        Molar absorptivity of ozone at the wavelength, decadic. [m2/mol]
    path : float
        Length of the cell. [m]
    temperature : float
        Of the gas in the cell. [K]
    pressure : float
        Absolute pressure in the cell. [Pa]

    Returns
    -------
    mole_fraction : float
        Ozone in the gas as it stands in the cell. [1]

    Raises
    ------
    None

    Valid
    -----
    253.65 nm, 293..300 K; +0.6 % below 273 K. Ideal gas.

    Source
    ------
    hodges_2019
    cfr_2023, appendix D

    Notes
    -----
    x = A R T / (epsilon l p)
    """
    return absorbance * R * temperature / (absorptivity * path * pressure)


def ozone_rate_from_fraction(*, mole_fraction: Real, feed_flow: Real) -> Real:
    """Ozone per time from its fraction in the ozonised gas and the dry feed.

    Parameters
    ----------
    mole_fraction : float
        Ozone in the dry ozonised gas. [1]
    feed_flow : float
        Dry feed into the tube. [mol/s]

    Returns
    -------
    ozone_rate : float
        Ozone. [mol/s]

    Raises
    ------
    None

    Valid
    -----
    3 O2 -> 2 O3: the ozonised gas is the feed less half the ozone.

    Source
    ------
    stoichiometry

    Notes
    -----
    n = x F / (1 + x / 2)
    """
    return mole_fraction * feed_flow / (1.0 + mole_fraction / 2.0)


def concentration_from_absorbance(*, absorbance: Real, absorptivity: Real, path: Real) -> Real:
    """Concentration of what absorbs in a cell.

    Parameters
    ----------
    absorbance : float
        Decadic, less that of the blank. [1]
    absorptivity : float
        Molar absorptivity at the wavelength, decadic. [m2/mol]
    path : float
        Length of the cell. [m]

    Returns
    -------
    concentration : float
        In the cell. [mol/m3]

    Raises
    ------
    None

    Valid
    -----
    As far as the photometer is linear.

    Source
    ------
    awtrey_1951, triiodide at 352 nm

    Example
    -------
    Triiodide, 0.264 in 1 cm: 1.00e-5 mol/L.
    """
    return absorbance / (absorptivity * path)


def cross_section(*, absorptivity: Real) -> Real:
    """Area of one molecule to light, from its molar absorptivity.

    Parameters
    ----------
    absorptivity : float
        Molar absorptivity, decadic. [m2/mol]

    Returns
    -------
    cross_section : float
        Base e. [m2]

    Raises
    ------
    None

    Valid
    -----
    Any.

    Source
    ------
    hodges_2019, definition

    Example
    -------
    2963.0 L/mol/cm is 1.1329e-17 cm2.
    """
    return absorptivity * log(10.0) / AVOGADRO


def absorption_coefficient(*, absorptivity: Real, temperature: Real, pressure: Real) -> Real:
    """Absorption of a pure gas over a length, from its molar absorptivity.

    Parameters
    ----------
    absorptivity : float
        Molar absorptivity, decadic. [m2/mol]
    temperature : float
        Of the gas. [K]
    pressure : float
        Of the gas alone. [Pa]

    Returns
    -------
    coefficient : float
        Base e. [1/m]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas.

    Source
    ------
    cfr_2023, appendix D

    Example
    -------
    2963.0 L/mol/cm is 304.39 for each atmosphere and centimetre at 0 °C.
    """
    return absorptivity * log(10.0) * pressure / (R * temperature)


def iodine_from_triiodide(*, triiodide: Real, iodide: Real, constant: Real) -> Real:
    """All iodine, free and bound, from the part bound as triiodide.

    Parameters
    ----------
    triiodide : float
        I3-. [mol/m3]
    iodide : float
        All iodide, free and bound in I3-; more than the triiodide. [mol/m3]
    constant : float
        Equilibrium constant of I2 + I- = I3-. [L/mol]

    Returns
    -------
    iodine : float
        I2 and I3-. [mol/m3]

    Raises
    ------
    None

    Valid
    -----
    Activities taken as concentrations.

    Source
    ------
    palmer_1984

    Notes
    -----
    c = b (1 + 1 / (K (i - b)))
    """
    free_iodide = iodide - triiodide
    return triiodide * (1.0 + 1.0 / (constant * 1e-3 * free_iodide))


def ozone_from_indigo(
    *, bleached: Real, absorptivity: Real, path: Real, sample: Real, whole: Real
) -> Real:
    """Dissolved ozone from how much indigo a sample bleached.

    Parameters
    ----------
    bleached : float
        Absorbance of the blank less that of the sample, decadic. [1]
    absorptivity : float
        Loss of absorbance per mass of ozone, decadic. [m2/kg]
    path : float
        Length of the cell. [m]
    sample : float
        Sample taken. [m3]
    whole : float
        Sample and reagent together. [m3]

    Returns
    -------
    concentration : float
        Ozone in the sample. [kg/m3]

    Raises
    ------
    None

    Valid
    -----
    600 nm, pH below 4, 0.005..30 mg/L.

    Source
    ------
    apha_1998, 4500-O3 B
    bader_1981

    Example
    -------
    0.500 in 5 cm with 90 mL in 100 mL is 0.2646 mg/L.
    """
    return bleached / (absorptivity * path) * whole / sample
