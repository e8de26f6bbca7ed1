"""Ozone that a generator has sent into a vessel, and how much of it stayed there."""

from __future__ import annotations

from ozonewright.physics import Real


def amount_dosed(*, rate: Real, on_time: Real, uptake: Real) -> Real:
    """Ozone that stayed in a vessel after an on-time.

    Parameters
    ----------
    rate : float
        Output of the generator. [mol/s]
    on_time : float
        Discharge on and gas through the vessel. [s]
    uptake : float
        Share of the ozone that stays; 1 for all that was sent in. [1]

    Returns
    -------
    amount : float
        Ozone. [mol]

    Raises
    ------
    None

    Valid
    -----
    Steady output; what the line and the gas space hold up is left out.

    Source
    ------
    stoichiometry

    Notes
    -----
    n = rate x on-time x uptake

    Example
    -------
    11.1 mmol/h for 4 min, all of it taken up: 0.74 mmol.
    """
    return rate * on_time * uptake


def on_time_left(*, amount: Real, rate: Real, uptake: Real) -> Real:
    """On-time that the rest of an amount still takes.

    Parameters
    ----------
    amount : float
        Ozone still to be taken up. [mol]
    rate : float
        Output of the generator, above zero. [mol/s]
    uptake : float
        Share of the ozone that stays, above zero. [1]

    Returns
    -------
    on_time : float
        Discharge on and gas through the vessel. [s]

    Raises
    ------
    None

    Valid
    -----
    Steady output; what the line and the gas space hold up is left out.

    Source
    ------
    stoichiometry

    Notes
    -----
    t = n / (rate x uptake); below zero once more than the amount was taken up.
    """
    return amount / (rate * uptake)
