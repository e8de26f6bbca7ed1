"""The assay the other way round: from a wished titre to times and weights."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import IODIDE_PER_OZONE, M_O3, THIOSULFATE_PER_OZONE


def ozone_for_titre(*, titre: Real, concentration: Real) -> Real:
    """Ozone whose iodine takes a titre.

    Parameters
    ----------
    titre : float
        Thiosulfate solution used, less its blank. [m3]
    concentration : float
        Thiosulfate. [mol/m3]

    Returns
    -------
    ozone : float
        Trapped. [mol]

    Raises
    ------
    None

    Valid
    -----
    Neutral iodide during the run, acid afterwards.

    Source
    ------
    sac_undated
    """
    return titre * concentration / THIOSULFATE_PER_OZONE


def titre_for_ozone(*, ozone: Real, concentration: Real) -> Real:
    """Titre that an amount of ozone takes.

    Parameters
    ----------
    ozone : float
        Trapped. [mol]
    concentration : float
        Thiosulfate. [mol/m3]

    Returns
    -------
    titre : float
        Thiosulfate solution used, less its blank. [m3]

    Raises
    ------
    None

    Valid
    -----
    Neutral iodide during the run, acid afterwards.

    Source
    ------
    sac_undated
    """
    return THIOSULFATE_PER_OZONE * ozone / concentration


def iodide_for_ozone(*, ozone: Real, ratio: Real) -> Real:
    """Iodide that holds the iodine of an amount of ozone with a margin.

    Parameters
    ----------
    ozone : float
        To be trapped. [mol]
    ratio : float
        Multiple of the least needed. [1]

    Returns
    -------
    iodide : float
        To be put into the bottle. [mol]

    Raises
    ------
    None

    Valid
    -----
    Two iodide per ozone is the least.

    Source
    ------
    sac_undated
    """
    return ratio * IODIDE_PER_OZONE * ozone


def standard_for_titre(
    *,
    titre: Real,
    concentration: Real,
    equivalents: Real,
    molar_mass: Real,
    flask: Real,
    aliquot: Real,
) -> Real:
    """Mass of an oxidising standard whose aliquot takes a wished titre.

    Parameters
    ----------
    titre : float
        Thiosulfate solution wished for. [m3]
    concentration : float
        Thiosulfate, about. [mol/m3]
    equivalents : float
        Thiosulfate per standard. [1]
    molar_mass : float
        Of the standard. [kg/mol]
    flask : float
        Volume the standard is made up to. [m3]
    aliquot : float
        Volume taken for each titration. [m3]

    Returns
    -------
    mass : float
        To be weighed. [kg]

    Raises
    ------
    None

    Valid
    -----
    The standard is pure; the exact mass goes into the calculation later.

    Source
    ------
    apha_1998
    """
    return titre * concentration / equivalents * molar_mass * flask / aliquot


def amount_of_ozone(*, mass: Real) -> Real:
    """Amount of ozone from its mass, or amount per time from mass per time.

    Parameters
    ----------
    mass : float
        Ozone. [kg]

    Returns
    -------
    amount : float
        Ozone. [mol]

    Raises
    ------
    None

    Valid
    -----
    Ozone of natural oxygen.

    Source
    ------
    prohaska_2022
    """
    return mass / M_O3


def caught_share(
    *, tail_titre: Real, blank: Real, titrant: Real, output: Real, on_time: Real
) -> Real:
    """Share of the ozone sent in that a tail bottle of iodide caught.

    Parameters
    ----------
    tail_titre : float
        Of the tail bottle. [m3]
    blank : float
        Of its reagents. [m3]
    titrant : float
        Thiosulfate. [mol/m3]
    output : float
        Ozone sent in. [mol/s]
    on_time : float
        Of the discharge. [s]

    Returns
    -------
    share : float
        Of the ozone sent in. [1]

    Raises
    ------
    None

    Valid
    -----
    The tail bottle takes all that reaches it.

    Source
    ------
    sac_undated
    """
    caught = ozone_for_titre(titre=tail_titre - blank, concentration=titrant)
    return caught / (output * on_time)
