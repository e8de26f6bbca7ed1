"""Bottles one after another: what all of them let pass, and what the guard holds."""

from __future__ import annotations

from ozonewright.physics import Real


def in_series(*, lefts: list[Real]) -> Real:
    """Share that passes bottles one behind the other.

    Parameters
    ----------
    lefts : list of float
        Share that passes each. [1]

    Returns
    -------
    share : float
        That passes them all. [1]

    Raises
    ------
    None

    Valid
    -----
    Any.

    Source
    ------
    geometry
    """
    share: Real = 1.0
    for left in lefts:
        share = share * left
    return share


def guard_share(*, lefts: list[Real]) -> Real:
    """Ozone of the last of several bottles over that of all.

    Parameters
    ----------
    lefts : list of float
        Share that passes each. [1]

    Returns
    -------
    share : float
        Guard share. [1]

    Raises
    ------
    None

    Valid
    -----
    All that a bottle takes up is found in it.

    Source
    ------
    geometry
    """
    before = in_series(lefts=lefts[:-1])
    after = before * lefts[-1]
    return (before - after) / (1.0 - after)
