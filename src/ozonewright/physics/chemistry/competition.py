"""Two sites that compete for the same ozone."""

from __future__ import annotations

from ozonewright.physics import Real


def share_taken(*, converted: Real, ratio: Real) -> Real:
    """Share of a slower site that ozone has taken when so much of a faster one is converted.

    Parameters
    ----------
    converted : float
        Share of the faster site that is gone. [1]
    ratio : float
        Rate constant of the slower site over that of the faster. [1]

    Returns
    -------
    share : float
        Of the slower site. [1]

    Raises
    ------
    None

    Valid
    -----
    converted 0..1, without 1; a well-mixed flask, in which both are of first order in ozone. Where
    gas reacts before it is mixed, the slower site loses more.

    Source
    ------
    munoz_2000

    Notes
    -----
    Competition: ln(1 - s)/ln(1 - x) = k_slow/k_fast, so s = 1 - (1 - x)^(k_slow/k_fast).
    """
    return 1.0 - (1.0 - converted) ** ratio
