"""How much of a neutraliser a waste stream needs."""

from __future__ import annotations

from ozonewright.physics import Real


def neutraliser_mass(*, amount: Real, per_mole: Real, molar_mass: Real) -> Real:
    """Mass of a neutraliser for an amount of what is to be made harmless.

    Parameters
    ----------
    amount : float
        Of what is to be made harmless. [mol]
    per_mole : float
        Neutraliser for each mole of it. [1]
    molar_mass : float
        Of the neutraliser. [kg/mol]

    Returns
    -------
    mass : float
        Of the neutraliser, pure. [kg]

    Raises
    ------
    None

    Valid
    -----
    The least; a small surplus does no harm, and a test must follow.

    Source
    ------
    stoichiometry
    """
    return amount * per_mole * molar_mass
