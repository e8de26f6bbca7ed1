"""Tail bottle and destruct: what they can take, how long they last, how hot a bed gets."""

from __future__ import annotations

from ozonewright.physics import Real


def tail_capacity(*, reagent: Real, per_ozone: Real) -> Real:
    """Ozone that the reagent of a tail bottle can take.

    Parameters
    ----------
    reagent : float
        Iodide or thiosulfate in the bottle. [mol]
    per_ozone : float
        Reagent used for each ozone. [1]

    Returns
    -------
    capacity : float
        Ozone at the most. [mol]

    Raises
    ------
    None

    Valid
    -----
    Fresh reagent. Fill at least twice what could arrive (common practice).

    Source
    ------
    stoichiometry
    """
    return reagent / per_ozone


def time_to_exhaustion(*, capacity: Real, arriving: Real) -> Real:
    """Time until a tail bottle or a bed has taken all it can.

    Parameters
    ----------
    capacity : float
        Ozone that it can take. [mol]
    arriving : float
        Ozone that reaches it, above zero. [mol/s]

    Returns
    -------
    time : float
        From fresh. [s]

    Raises
    ------
    None

    Valid
    -----
    It takes all that comes until then; a real one begins to let through earlier.

    Source
    ------
    stoichiometry
    """
    return capacity / arriving


def bed_heat(*, ozone: Real, ozone_enthalpy: Real, vapour: Real, vapour_enthalpy: Real) -> Real:
    """Heat set free in a catalyst bed that decomposes ozone and perhaps burns solvent vapour.

    Parameters
    ----------
    ozone : float
        Ozone that is decomposed. [mol/s]
    ozone_enthalpy : float
        Heat for each mole of ozone. [J/mol]
    vapour : float
        Solvent vapour that is burnt on the bed; zero behind a good trap. [mol/s]
    vapour_enthalpy : float
        Heat of combustion for each mole of it. [J/mol]

    Returns
    -------
    heat : float
        Into bed and gas. [W]

    Raises
    ------
    None

    Valid
    -----
    Everything reacts.

    Source
    ------
    ruscic_2004, enthalpy of formation of ozone
    """
    return ozone * ozone_enthalpy + vapour * vapour_enthalpy


def bed_temperature_rise(*, heat: Real, gas_flow: Real, heat_capacity: Real) -> Real:
    """How much hotter the gas leaves a bed that loses no heat.

    Parameters
    ----------
    heat : float
        Set free in the bed. [W]
    gas_flow : float
        Through the bed, above zero. [mol/s]
    heat_capacity : float
        Of the gas at constant pressure. [J/(mol K)]

    Returns
    -------
    rise : float
        Of temperature, at the most. [K]

    Raises
    ------
    None

    Valid
    -----
    No loss to the outside: the bench is cooler.

    Source
    ------
    stoichiometry

    Example
    -------
    1 vol% of ozone gives 1418 J for each mole of gas: 48 K at 29.4 J/(mol K).
    """
    return heat / (gas_flow * heat_capacity)
