"""Thiosulfate from its standard, ozone from thiosulfate."""

from __future__ import annotations

from ozonewright.physics import Real
from ozonewright.references.constants import IODIDE_PER_OZONE, THIOSULFATE_PER_OZONE


def thiosulfate_from_standard(
    *,
    mass: Real,
    purity: Real,
    molar_mass: Real,
    equivalents: Real,
    flask: Real,
    aliquot: Real,
    titre: Real,
) -> Real:
    """Concentration of thiosulfate titrated against a weighed oxidising standard.

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
    titre : float
        Thiosulfate used, less its blank. [m3]

    Returns
    -------
    concentration : float
        Thiosulfate. [mol/m3]

    Raises
    ------
    None

    Valid
    -----
    IO3- + 5 I- + 6 H+ -> 3 I2 + 3 H2O;  Cr2O7(2-) + 6 I- + 14 H+ -> 2 Cr(3+) + 3 I2 + 7 H2O.

    Source
    ------
    apha_1998
    """
    return equivalents * mass * purity / molar_mass * (aliquot / flask) / titre


def thiosulfate_from_salt(*, mass: Real, purity: Real, molar_mass: Real, flask: Real) -> Real:
    """Concentration of thiosulfate made up by weight.

    Parameters
    ----------
    mass : float
        Salt weighed in. [kg]
    purity : float
        Mass fraction of the salt in what was weighed. [1]
    molar_mass : float
        Of the salt with its water of crystallisation. [kg/mol]
    flask : float
        Volume made up to. [m3]

    Returns
    -------
    concentration : float
        Thiosulfate. [mol/m3]

    Raises
    ------
    None

    Valid
    -----
    The pentahydrate effloresces; a weighed solution is no standard until titrated.

    Source
    ------
    stoichiometry
    """
    return mass * purity / (molar_mass * flask)


def thiosulfate_used(
    *, concentration: Real, titre: Real, blank: Real, taken: Real, warmth: Real
) -> Real:
    """Thiosulfate that the iodine of one bottle used.

    Parameters
    ----------
    concentration : float
        Thiosulfate at the temperature it is stated for. [mol/m3]
    titre : float
        Volume used. [m3]
    blank : float
        Volume used by the same bottle without ozone. [m3]
    taken : float
        Share of the bottle that was titrated. [1]
    warmth : float
        Expansion of the titrant since it was standardised, as a share of its volume. [1]

    Returns
    -------
    thiosulfate : float
        For the whole bottle. [mol]

    Raises
    ------
    None

    Valid
    -----
    The blank was titrated with the same titrant and the same share of a bottle.

    Source
    ------
    stoichiometry
    """
    return concentration * (titre - blank) * (1.0 - warmth) / taken


def ozone_from_thiosulfate(*, thiosulfate: Real) -> Real:
    """Ozone that freed the iodine which the thiosulfate used up.

    Parameters
    ----------
    thiosulfate : float
        Used. [mol]

    Returns
    -------
    ozone : float
        Trapped. [mol]

    Raises
    ------
    None

    Valid
    -----
    Neutral or alkaline iodide during the run, acid afterwards; acid during the run reads high.

    Source
    ------
    sac_undated
    """
    return thiosulfate / THIOSULFATE_PER_OZONE


def iodide_ratio(*, iodide: Real, ozone: Real) -> Real:
    """Iodide in a bottle as a multiple of the least that its ozone needs.

    Parameters
    ----------
    iodide : float
        Put into the bottle. [mol]
    ozone : float
        Trapped in it. [mol]

    Returns
    -------
    ratio : float
        1 is all iodide spent. [1]

    Raises
    ------
    None

    Valid
    -----
    Two iodide per ozone; five times that keeps the iodine bound.

    Source
    ------
    stoichiometry
    """
    return iodide / (IODIDE_PER_OZONE * ozone)


def blank_at(
    *, on_time: Real, early_time: Real, early_blank: Real, late_time: Real, late_blank: Real
) -> Real:
    """Field blank at an on-time from two field blanks of different minutes.

    Parameters
    ----------
    on_time : float
        For which the blank is wanted. [s]
    early_time : float
        Of the shorter field blank. [s]
    early_blank : float
        Thiosulfate of the shorter one. [mol]
    late_time : float
        Of the longer field blank. [s]
    late_blank : float
        Thiosulfate of the longer one. [mol]

    Returns
    -------
    blank : float
        Thiosulfate. [mol]

    Raises
    ------
    None

    Valid
    -----
    The blank grows evenly with time; least sure outside the two minutes measured.

    Source
    ------
    stoichiometry
    """
    slope = (late_blank - early_blank) / (late_time - early_time)
    return early_blank + slope * (on_time - early_time)


def passed_all_bottles(*, first: Real, last: Real, bottles: Real) -> Real:
    """Share of the ozone that slipped past a train of bottles, if each lets the same share pass.

    Parameters
    ----------
    first : float
        Ozone trapped in the first bottle. [mol]
    last : float
        Ozone trapped in the last bottle. [mol]
    bottles : float
        In the train, two or more. [1]

    Returns
    -------
    passed : float
        Ozone past the last bottle, as share of all that came in. [1]

    Raises
    ------
    None

    Valid
    -----
    last below first; like bottles, so that each catches the same share of what reaches it.

    Source
    ------
    stoichiometry

    Notes
    -----
    With p the share that one bottle lets pass, last/first = p^(n-1), and p^n goes past all.
    """
    return (last / first) ** (bottles / (bottles - 1.0))
