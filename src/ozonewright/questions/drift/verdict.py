"""Determined, or not: how sure, whether it fits, and whether it stands with other priors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ozonewright.questions.drift.labels import (
    Labelled,
    family_of,
    labelled,
    probabilities,
    summed,
)
from ozonewright.questions.drift.model import predicted
from ozonewright.questions.drift.posterior import STEADY, Weighed
from ozonewright.questions.drift.series import Array, Readings, Setup
from ozonewright.references.priors import prior

SURE = 0.90
SURE_OF_GUESSES = 0.95
"""Where the order is unknown or the uncertainties are guesses."""
STANDS = 0.50
"""What the verdict must keep when what was thought of the causes is twice as wide."""
WIDER, NARROWER = 2.0, 0.5
FITS = 0.01
"""Chance of readings as far off as these, below which nothing on the list fits."""
CHECKED = 400


@dataclass(frozen=True, slots=True)
class Verdict:
    """What may be said."""

    verdict: str | None
    """A cause or a told-alike group, or None."""
    threshold: float
    fits: bool
    """Whether the leading label foretells readings like these."""
    stands: bool
    """Whether the leader keeps `STANDS` with other widths."""
    even: bool
    """Whether short and long runs agree: nothing that matters, or only what hides in all alike."""
    leader: str
    chances: Mapping[str, float]
    groups: Mapping[str, float]
    classes: Mapping[str, float]

    @property
    def determined(self) -> bool:
        """Whether one cause or group is named."""
        return self.verdict is not None


def judged(
    weighed: Sequence[Weighed],
    setup: Setup,
    readings: Readings,
    *,
    sure_facts: bool,
    hidden: frozenset[str],
    stream: np.random.Generator,
) -> tuple[Verdict, tuple[Labelled, ...]]:
    """Return the verdict, and the labelled draws behind it; what is hidden is never named."""
    found = labelled(weighed)
    chances = probabilities(found)
    groups = summed(chances, "family")
    threshold = SURE if sure_facts else SURE_OF_GUESSES
    cause, group = next(iter(chances)), next(iter(groups))
    named = cause if chances[cause] >= threshold else None
    if named is None and groups[group] >= threshold:
        named = group
    if named is not None and hidden.intersection(named.split("+")):
        named = None
    fits = _fits(found, group, setup, readings, stream)
    stands = named is None or _stands(weighed, named, group, threshold)
    return (
        Verdict(
            verdict=named if fits and stands else None,
            threshold=threshold,
            fits=fits,
            stands=stands,
            even=fits and sum(groups.get(name, 0.0) for name in {STEADY, *hidden}) >= threshold,
            leader=group,
            chances=chances,
            groups=groups,
            classes=summed(chances, "class"),
        ),
        found,
    )


def _stands(weighed: Sequence[Weighed], named: str, group: str, threshold: float) -> bool:
    """Say whether the verdict stands when causes are thought twice or half as variable in size.

    Twice: it stays likelier than all the rest. Half makes a size that is large, but ordinary, all
    but impossible; then no other group may be sure enough to be named instead.
    """
    chances = probabilities(labelled(weighed, WIDER))
    groups = summed(chances, "family")
    kept = chances.get(named, 0.0) if named != group else groups.get(group, 0.0)
    narrow = summed(probabilities(labelled(weighed, NARROWER)), "family")
    rival, chance = next(iter(narrow.items()))
    return kept >= STANDS and (rival == group or chance < threshold)


def _fits(
    found: Sequence[Labelled],
    group: str,
    setup: Setup,
    readings: Readings,
    stream: np.random.Generator,
) -> bool:
    """Say whether readings drawn from the leading group are as far off as the real ones."""
    own = [one for one in found if family_of(one.label) == group]
    best = max(own, key=lambda one: float(one.share.sum()))
    if "misread" in best.label:
        return True
    rows = stream.choice(len(best.share), CHECKED, p=best.share / best.share.sum())
    theta = best.weighed.model.theta(best.weighed.evidence.z[rows])
    told = predicted(setup, theta)
    scatter = np.asarray(theta["scatter"])
    variance = readings.u_main**2 + (scatter * told.main) ** 2 + (told.rate * setup.u_on_time) ** 2
    real = ((readings.main - told.main) ** 2 / variance).sum(axis=1)
    drawn = stream.chisquare(len(setup), CHECKED)
    return bool(np.mean(drawn >= real) >= FITS)


def best_misfit(one: Weighed, setup: Setup, readings: Readings) -> float:
    """Return the least sum of squares over variance that any draw reaches, at usual scatter."""
    told = predicted(setup, one.model.theta(one.evidence.z))
    own = "scatter" if one.model.causes[0].name == "scatter" else ""
    scatter = prior("SCATTER_LARGE" if own else "SCATTER").centre.value
    variance: Array = (
        readings.u_main**2 + (scatter * told.main) ** 2 + (told.rate * setup.u_on_time) ** 2
    )
    return float(((readings.main - told.main) ** 2 / variance).sum(axis=1).min())
