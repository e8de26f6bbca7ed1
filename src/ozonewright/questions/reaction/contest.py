"""How much the next site in line loses while the wanted one is cleaved: a band, not a figure."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from ozonewright.physics.chemistry.competition import share_taken
from ozonewright.questions.reaction.structure import Cut, SiteLine, Substrate, attacked
from ozonewright.references.ozone_solubility import absorption

CONVERTED = 0.99
"""Conversion of the wanted site at which the loss of the next is told."""
SPREAD = absorption("KIND_SPREAD").value
"""Factor either way of a constant that only stands for its kind or was measured in water.

"The same order in water and in organic solvents" is what hoigne_1983 says of many compounds.
"""
RING_IN_WATER = absorption("RING_IN_WATER").value
"""So many times is a benzene ring faster in water than in an organic solvent (hoigne_1983)."""


@dataclass(frozen=True, slots=True)
class Contest:
    """The wanted site against the next one."""

    wanted: SiteLine
    rival: SiteLine
    ratio: float
    """Rate constant of the rival over that of the wanted site, in an organic solvent. [1]"""
    spread: float
    """Factor by which the ratio may be off, either way."""
    low: float
    """Share of the rival that is lost when 99 % of the wanted site is converted. [1]"""
    high: float


def contest(substrate: Substrate, cut: Cut = "selective") -> Contest | None:
    """Return the contest of the slowest site to be cleaved with the fastest that should stay.

    None where nothing should stay, or no published rate constant is known for either.
    """
    taken = attacked(substrate.all_sites, cut) or ()
    wanted = [line for line in substrate.sites if line.sites[0] in taken]
    others = [line for line in substrate.sites if line.sites[0] not in taken]
    if not wanted or any(line.rate is None for line in wanted):
        return None
    slowest = min(wanted, key=_organic)
    rivals = [line for line in others if line.rate is not None]
    if not rivals:
        return None
    rival = max(rivals, key=_organic)
    ratio = _organic(rival) / _organic(slowest)
    doubts = sum(_doubtful(line) for line in (slowest, rival))
    spread = SPREAD ** sqrt(doubts)
    low, high = (
        float(share_taken(converted=CONVERTED, ratio=one))
        for one in (ratio / spread, ratio * spread)
    )
    return Contest(slowest, rival, ratio, spread, low, high)


def _organic(line: SiteLine) -> float:
    """Return the rate constant as it may be in an organic solvent. [m3/(mol s)]"""
    assert line.rate is not None
    ring = "aromatic ring" in line.kind and _in_water(line)
    return line.rate.datum.value / (RING_IN_WATER if ring else 1.0)


def _in_water(line: SiteLine) -> bool:
    return line.rate is not None and line.rate.medium.startswith("water")


def _doubtful(line: SiteLine) -> bool:
    return not line.itself or _in_water(line)
