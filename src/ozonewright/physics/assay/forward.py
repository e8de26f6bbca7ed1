"""The assay in the other direction: from what a generator makes to what the burette reads."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import THIOSULFATE_PER_OZONE


def ozone_delivered(*, production: Real, on_time: Real, loss: Real) -> Real:
    """Ozone that comes out of the gas line during a run.

    Parameters
    ----------
    production : float
        Ozone that the tube makes. [mol/s]
    on_time : float
        Discharge on and gas through the bottles. [s]
    loss : float
        Share that decays or leaks between tube and bottles. [1]

    Returns
    -------
    ozone : float
        Into the first bottle. [mol]

    Raises
    ------
    None

    Valid
    -----
    Steady production: the gas was diverted until the output stood still.

    Source
    ------
    stoichiometry
    """
    return production * on_time * (1.0 - loss)


def ozone_in_bottle(*, delivered: Real, capture: Real, place: int) -> Real:
    """Ozone that one bottle of a train in series takes up.

    Parameters
    ----------
    delivered : float
        Ozone into the first bottle. [mol]
    capture : float
        Share of what reaches a bottle that stays in it. [1]
    place : int
        Of the bottle in flow order, from 1. [1]

    Returns
    -------
    ozone : float
        Trapped in that bottle. [mol]

    Raises
    ------
    None

    Valid
    -----
    Every bottle catches the same share of what reaches it.

    Source
    ------
    stoichiometry
    """
    return delivered * (1.0 - capture) ** (place - 1) * capture


def titre_expected(
    *, ozone: Real, recovery: Real, surplus: Real, concentration: Real, blank: Real
) -> Real:
    """Titre that a bottle will use.

    Parameters
    ----------
    ozone : float
        Trapped in the bottle. [mol]
    recovery : float
        Share of it whose iodine is there at the end point: iodate brought back, none carried off.
        [1]
    surplus : float
        Thiosulfate for iodine that ozone did not free. [mol]
    concentration : float
        Thiosulfate. [mol/m3]
    blank : float
        Volume used by the reagents alone. [m3]

    Returns
    -------
    titre : float
        Volume used. [m3]

    Raises
    ------
    None

    Valid
    -----
    The whole bottle is titrated.

    Source
    ------
    sac_undated
    """
    return (THIOSULFATE_PER_OZONE * ozone * recovery + surplus) / concentration + blank


def standard_titre_expected(
    *,
    mass: Real,
    purity: Real,
    molar_mass: Real,
    equivalents: Real,
    flask: Real,
    aliquot: Real,
    concentration: Real,
) -> Real:
    """Titre that an oxidising standard will use.

    Parameters
    ----------
    mass : float
        Standard weighed into the flask. [kg]
    purity : float
        Mass fraction of the standard in what was weighed. [1]
    molar_mass : float
        Of the standard. [kg/mol]
    equivalents : float
        Thiosulfate per standard: 6 for iodate and for dichromate. [1]
    flask : float
        Volume made up to. [m3]
    aliquot : float
        Volume taken for the titration. [m3]
    concentration : float
        Thiosulfate. [mol/m3]

    Returns
    -------
    titre : float
        Volume used. [m3]

    Raises
    ------
    None

    Valid
    -----
    As `thiosulfate_from_standard`, of which this is the inverse.

    Source
    ------
    apha_1998
    """
    return equivalents * mass * purity / molar_mass * (aliquot / flask) / concentration
