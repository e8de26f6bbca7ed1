"""Friction in a straight tube, laminar to rough."""

from __future__ import annotations

from fluids.friction import LAMINAR_TRANSITION_PIPE, Clamond

TURBULENT = 4000.0
"""Reynolds number from which the flow is surely turbulent."""


def friction_factor(*, reynolds: float, roughness: float) -> float:
    """Darcy friction factor of a round tube.

    Parameters
    ----------
    reynolds : float
        Reynolds number, above 0; one at a time. [1]
    roughness : float
        Height of the roughness over the bore. [1]

    Returns
    -------
    friction_factor : float
        Darcy's. [1]

    Raises
    ------
    None

    Valid
    -----
    Re up to 1e8, roughness 0..0.05; fully developed. Between Re 2040 and 4000 no law holds (the
    loss is unsure to about 30 %): the factor goes in a straight line from one to the other, so that
    more flow always loses more pressure.

    Source
    ------
    fluids_library, friction (Clamond's solution of Colebrook's equation)

    Notes
    -----
    64/Re below 2040; Colebrook above 4000.
    """
    if reynolds <= LAMINAR_TRANSITION_PIPE:
        return 64.0 / reynolds
    if reynolds >= TURBULENT:
        return float(Clamond(reynolds, roughness))
    low = 64.0 / LAMINAR_TRANSITION_PIPE
    high = float(Clamond(TURBULENT, roughness))
    share = (reynolds - LAMINAR_TRANSITION_PIPE) / (TURBULENT - LAMINAR_TRANSITION_PIPE)
    return low + share * (high - low)
