"""Amounts of a work-up: reagent, solution, hydrogen."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import R


def reagent_amount(*, ozone: Real, equivalents: Real) -> Real:
    """Reagent that ends the peroxides of an ozonolysis.

    Parameters
    ----------
    ozone : float
        Taken up by the reaction. [mol]
    equivalents : float
        Reagent for each mole of it. [1]

    Returns
    -------
    amount : float
        Of pure reagent. [mol]

    Raises
    ------
    None

    Valid
    -----
    Every mole of ozone taken up leaves one peroxide.

    Source
    ------
    stoichiometry

    Example
    -------
    10.0 mmol and 1.10: 11.0 mmol.
    """
    return ozone * equivalents


def solution_volume(*, amount: Real, molar_mass: Real, strength: Real, density: Real) -> Real:
    """Volume of a liquid reagent, pure or in solution.

    Parameters
    ----------
    amount : float
        Of pure reagent. [mol]
    molar_mass : float
        Of the reagent. [kg/mol]
    strength : float
        Mass fraction of reagent in the liquid. [1]
    density : float
        Of the liquid as bought. [kg/m3]

    Returns
    -------
    volume : float
        To be measured out. [m3]

    Raises
    ------
    None

    Valid
    -----
    Density at room temperature.

    Source
    ------
    stoichiometry
    """
    return amount * molar_mass / (strength * density)


def gas_volume(*, amount: Real, temperature: Real, pressure: Real) -> Real:
    """Volume of an ideal gas.

    Parameters
    ----------
    amount : float
        Of gas. [mol]
    temperature : float
        Of the gas. [K]
    pressure : float
        Of the gas, absolute. [Pa]

    Returns
    -------
    volume : float
        At that temperature and pressure. [m3]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas: within 1 % for hydrogen on the bench.

    Source
    ------
    tiesinga_2021, table 31

    Example
    -------
    1 mmol of hydrogen at 20 °C and 101.325 kPa is 24.1 mL.
    """
    return amount * R * temperature / pressure
