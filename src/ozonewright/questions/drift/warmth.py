"""What is thought of a generator that warms: beforehand, or as a log or a fit tells it.

Nothing known leaves the table of priors as it is.
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from statistics import NormalDist

from ozonewright.questions.drift.cause import Parameter, parameter
from ozonewright.questions.drift.series import Facts, Known
from ozonewright.references.priors import prior

LEAST = 1e-3
"""An excess smaller than this moves no run that a titre could show. [1]"""
ODD = 1e-3
"""Chance left to the other sign, however sure a fit is: drift rules nothing out beforehand."""
MOST = 0.95
"""A cold generator gives at least something. [1]"""


def settling(facts: Facts) -> Parameter:
    """Return the time constant of settling: as thought beforehand, or as that of the tube."""
    usual = parameter("settling", "SETTLING")
    if facts.settling is None:
        return usual
    known = facts.settling
    return replace(usual, centre=known.value, spread=_spread(known, "SETTLING_KNOWN", usual))


def cooling(facts: Facts) -> Parameter:
    """Return the time constant of cooling over that of settling."""
    usual = parameter("cooling", "COOLING")
    if facts.settling is None:
        return usual
    known = prior("COOLING_KNOWN")
    return replace(usual, centre=known.centre.value, spread=known.spread)


def excesses(facts: Facts) -> tuple[tuple[float, Parameter], ...]:
    """Return the excess of the cold generator, falling and rising, with the chance of each."""
    falling = parameter("excess", "WARMING")
    rising = parameter("excess", "WARMING", "below")
    falls = prior("WARMING_FALLS").centre.value
    if facts.excess is not None:
        known = facts.excess
        falls = 1.0 - NormalDist(known.value, max(known.u, LEAST)).cdf(0.0)
        falls = min(max(falls, ODD), 1.0 - ODD)
        size = Known(max(abs(known.value), LEAST), known.u)
        spread = _spread(size, "WARMING_KNOWN", falling)
        below = min(size.value, MOST)
        falling = replace(falling, centre=size.value, spread=spread)
        # the map of one that rises is -g / (1 + g)
        rising = replace(rising, centre=below / (1.0 - below), spread=spread)
    ways = ((falls, falling), (1.0 - falls, rising))
    return tuple(sorted(ways, key=lambda way: -way[0])) if facts.excess else ways


def _spread(known: Known, row: str, usual: Parameter) -> float:
    """Return the spread of a logarithm; never more than where nothing was known."""
    return min(hypot(known.u / known.value, prior(row).spread), usual.spread)
