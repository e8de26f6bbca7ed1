"""Heat of an ozonolysis: released, taken away by dry ice, or left in the liquid."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import DRY_ICE_SUBLIMATION


def reaction_power(*, rate: Real, uptake: Real, reaction_heat: Real) -> Real:
    """Heat released per time while ozone is taken up.

    Parameters
    ----------
    rate : float
        Output. [mol/s]
    uptake : float
        Share of the ozone that the reaction takes. [1]
    reaction_heat : float
        Released for each mole of ozone taken up. [J/mol]

    Returns
    -------
    power : float
        Into the liquid. [W]

    Raises
    ------
    None

    Valid
    -----
    Steady output and uptake.

    Source
    ------
    stoichiometry

    Example
    -------
    0.62 g/h, 88 %, 400 kJ/mol: 1.26 W.
    """
    return rate * uptake * reaction_heat


def liquid_heat(*, volume: Real, density: Real, heat_capacity: Real) -> Real:
    """Heat that warms a liquid by one kelvin.

    Parameters
    ----------
    volume : float
        Of the liquid. [m3]
    density : float
        Of the liquid. [kg/m3]
    heat_capacity : float
        Of the liquid. [J/(kg K)]

    Returns
    -------
    capacity : float
        Of the whole liquid. [J/K]

    Raises
    ------
    None

    Valid
    -----
    Density and heat capacity of 25 °C; their change with cold left out.

    Source
    ------
    chemicals_library, heat capacities of liquids
    """
    return volume * density * heat_capacity


def adiabatic_rise(*, heat: Real, capacity: Real) -> Real:
    """Rise in temperature of a liquid that keeps all the heat released in it.

    Parameters
    ----------
    heat : float
        Released in all. [J]
    capacity : float
        Of the liquid, per kelvin. [J/K]

    Returns
    -------
    rise : float
        If nothing were cooled. [K]

    Raises
    ------
    None

    Valid
    -----
    Flask, gas and evaporation left out; they lower it.

    Source
    ------
    stoichiometry
    """
    return heat / capacity


def dry_ice_for_heat(*, heat: Real) -> Real:
    """Dry ice that takes a heat by turning into gas.

    Parameters
    ----------
    heat : float
        To be taken away. [J]

    Returns
    -------
    mass : float
        Of dry ice. [kg]

    Raises
    ------
    None

    Valid
    -----
    At -78.5 °C; the cold of the gas, and what the bath takes from the room, left out.

    Source
    ------
    dry_ice_text, heat of sublimation

    Example
    -------
    4.0 kJ take 7.0 g.
    """
    return heat / DRY_ICE_SUBLIMATION


def energy_per_mass(*, molar_energy: Real, molar_mass: Real) -> Real:
    """Energy of decomposition for each kilogram of a peroxide.

    Parameters
    ----------
    molar_energy : float
        Of decomposition. [J/mol]
    molar_mass : float
        Of the peroxide. [kg/mol]

    Returns
    -------
    energy : float
        Released. [J/kg]

    Raises
    ------
    None

    Valid
    -----
    The peroxide by itself, free of solvent.

    Source
    ------
    cataldo_2014

    Example
    -------
    Ethyl oleate ozonide, 266 kJ/mol and 358.51 g/mol: 742 J/g.
    """
    return molar_energy / molar_mass
