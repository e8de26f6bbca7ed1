"""How soon a small bottle of iodide behind a flask colours."""

from __future__ import annotations

from ozonewright.physics import Real


def colouring_time(*, seen: Real, volume: Real, rate: Real) -> Real:
    """Time in which a fresh bottle of iodide with starch colours.

    Parameters
    ----------
    seen : float
        Iodine that is seen. [mol/m3]
    volume : float
        Of its liquid. [m3]
    rate : float
        Ozone that reaches it. [mol/s]

    Returns
    -------
    time : float
        From the first bubble on. [s]

    Raises
    ------
    None

    Valid
    -----
    Iodide takes all the ozone, one iodine for each; the liquid is mixed.

    Source
    ------
    stoichiometry

    Notes
    -----
    t = c V/n
    """
    return seen * volume / rate
