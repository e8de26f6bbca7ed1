"""The least energy ozone can cost."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import M_O3


def highest_yield(*, formation_enthalpy: Real) -> Real:
    """Ozone per energy if every joule went into bonds: no generator can do better.

    Parameters
    ----------
    formation_enthalpy : float
        Standard formation enthalpy of gaseous ozone. [J/mol]

    Returns
    -------
    yield : float
        Mass of ozone per energy. [kg/J]

    Raises
    ------
    None

    Valid
    -----
    298.15 K; the small change with temperature is left out.

    Source
    ------
    ruscic_2004
    """
    return M_O3 / formation_enthalpy


def oxygen_used(*, ozone_rate: Real, oxygen_flow: Real) -> Real:
    """Share of the oxygen fed that becomes ozone.

    Parameters
    ----------
    ozone_rate : float
        Ozone made. [mol/s]
    oxygen_flow : float
        Oxygen fed, above zero. [mol/s]

    Returns
    -------
    share : float
        Oxygen turned to ozone over oxygen fed. [1]

    Raises
    ------
    None

    Valid
    -----
    Any flow above zero; above 1 there is not enough oxygen.

    Source
    ------
    stoichiometry

    Notes
    -----
    3 O2 make 2 O3.
    """
    return 1.5 * ozone_rate / oxygen_flow
