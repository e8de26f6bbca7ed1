"""The models that are weighed: single causes and pairs, each with its parameters."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from ozonewright.questions.drift.cause import Cause, Parameter, Variant, parameter
from ozonewright.questions.drift.causes import CAUSES
from ozonewright.questions.drift.model import Theta
from ozonewright.questions.drift.series import Array, Facts

PAIRS_SHARE = 0.05
"""Chance beforehand that two causes act at once, over that of one alone (judgement)."""


@dataclass(frozen=True, slots=True)
class Model:
    """One cause or two, each acting in one way."""

    causes: tuple[Cause, ...]
    acts: tuple[Variant, ...]
    weight: float
    """Chance beforehand; those of all models sum to 1."""
    parameters: tuple[Parameter, ...]
    """The rate first, then what every series has, then what the causes set."""

    @property
    def own(self) -> list[int]:
        """The places of the parameters that causes set."""
        first = len(self.parameters) - sum(len(act.parameters) for act in self.acts)
        return list(range(first, len(self.parameters)))

    def theta(self, z: Array) -> dict[str, Array | float]:
        """Return the parameters of draws of shape (draws, dimension)."""
        out: dict[str, Array | float] = {}
        for act in self.acts:
            out |= act.fixed
        for place, one in enumerate(self.parameters):
            out[one.name] = one.value(z[:, place : place + 1])
        return out

    def without(self, theta: Theta, cause: Cause) -> dict[str, Array | float]:
        """Return the parameters with one cause switched off."""
        act = self.acts[self.causes.index(cause)]
        names = {one.name for one in act.parameters} | set(act.fixed)
        return {name: value for name, value in theta.items() if name not in names}


def models_of(facts: Facts, causes: tuple[Cause, ...] = CAUSES) -> tuple[Model, ...]:
    """Return every model that the series can show, and alone every cause that may hide in it."""
    shown = [cause for cause in causes if cause.shows(facts)]
    alone = [cause for cause in causes if cause in shown or cause.hides]
    singles = [model for cause in alone for model in _models((cause,), facts, cause.weight)]
    pairs = list(combinations([cause for cause in shown if cause.pairs], 2))
    pairs = [(a, b) for a, b in pairs if a.family != b.family]
    each = PAIRS_SHARE * len(shown) / len(pairs) if pairs else 0.0
    both = [model for pair in pairs for model in _models(pair, facts, each)]
    whole = sum(model.weight for model in [*singles, *both])
    return tuple(
        Model(model.causes, model.acts, model.weight / whole, model.parameters)
        for model in [*singles, *both]
    )


def hidden_of(facts: Facts, causes: tuple[Cause, ...] = CAUSES) -> frozenset[str]:
    """Return the causes that these runs can't show; none of them is named."""
    return frozenset(cause.name for cause in causes if not cause.shows(facts))


def _models(causes: tuple[Cause, ...], facts: Facts, weight: float) -> Iterator[Model]:
    """Yield the ways in which the causes act; in a pair, the likeliest way of each alone."""
    ways: list[tuple[Variant, ...]] = [tuple(cause.variants(facts)[0] for cause in causes)]
    if len(causes) == 1:
        ways = [(act,) for act in causes[0].variants(facts)]
    for acts in ways:
        chance = acts[0].weight if len(acts) == 1 else 1.0
        own = tuple(one for act in acts for one in act.parameters)
        named = {one.name for one in own}
        common = tuple(one for one in _common(facts) if one.name not in named)
        yield Model(causes, acts, weight * chance, (*common, *own))


def _common(facts: Facts) -> Iterator[Parameter]:
    yield parameter("rate", "RATE")
    yield parameter("scatter", "SCATTER")
    if facts.guard:
        yield parameter("slip", "SLIP_USUAL", "logit")
