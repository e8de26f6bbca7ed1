"""Acid for getting the iodate back."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.physics import Real
from ozonewright.references.constants import ACID_PER_OZONE

LITRES_PER_CUBIC_METRE = 1e3
"""pH counts protons per litre."""


def protons_released(*, pH: Real, pK: Sequence[float]) -> Real:
    """Protons an acid has given off per molecule when the solution has come to a pH.

    Parameters
    ----------
    pH : float
        Of the solution. [1]
    pK : sequence of float
        Of each proton, strongest first. [1]

    Returns
    -------
    protons : float
        Per molecule, between 0 and the number of acidic protons. [1]

    Raises
    ------
    None

    Valid
    -----
    Dilute solution at 25 °C; activity left out.

    Source
    ------
    acid_practice
    """
    total: Real = 0.0
    for constant in pK:
        total = total + 1.0 / (1.0 + 10.0 ** (constant - pH))
    return total


def acid_needed(*, ozone: Real, volume: Real, pH: Real) -> Real:
    """Protons that a bottle needs before its iodate turns back into iodine.

    Parameters
    ----------
    ozone : float
        Trapped in the bottle. [mol]
    volume : float
        Liquid in the bottle, acid included. [m3]
    pH : float
        That must be reached. [1]

    Returns
    -------
    protons : float
        Strong acid. [mol]

    Raises
    ------
    None

    Valid
    -----
    Unbuffered iodide; a buffer in the bottle needs its own acid besides.

    Source
    ------
    stoichiometry

    Notes
    -----
    Each ozone leaves two hydroxide ions, and the solution must then come to the pH.
    """
    return ACID_PER_OZONE * ozone + volume * LITRES_PER_CUBIC_METRE * 10.0 ** (-pH)
