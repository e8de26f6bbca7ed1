"""Two bottles one behind the other: what passes them."""

from __future__ import annotations

from ozonewright.physics import Real


def slip_from_guard_share(*, guard_share: Real) -> Real:
    """Share of the ozone that passes a bottle, from what the second of two bottles holds.

    Parameters
    ----------
    guard_share : float
        Ozone in the second bottle over the ozone in both. [1]

    Returns
    -------
    slip : float
        Share of what reaches a bottle that passes it. [1]

    Raises
    ------
    None

    Valid
    -----
    0..0.5; both bottles let the same share pass. Above 0.5 they stand in the wrong order.

    Source
    ------
    stoichiometry

    Notes
    -----
    The first holds 1 - s, the second s (1 - s) of what comes, so the share of the second is
    s/(1 + s), and s = g/(1 - g).
    """
    return guard_share / (1.0 - guard_share)
