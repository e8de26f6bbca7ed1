"""Output that settles while the generator warms, and warmth that is carried into the next run.

Rests that differ tell it from a cold start in every run.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant, parameter
from ozonewright.questions.drift.series import Facts
from ozonewright.references.priors import prior


def _variants(facts: Facts) -> tuple[Variant, ...]:
    rest = () if facts.rests else (parameter("rest", "REST"),)
    others = (parameter("settling", "SETTLING"), parameter("cooling", "COOLING"), *rest)
    falls = prior("WARMING_FALLS").centre.value
    carried = {"carried": 1.0}
    return (
        Variant(falls, (parameter("excess", "WARMING"), *others), carried),
        Variant(1.0 - falls, (parameter("excess", "WARMING", "below"), *others), carried),
    )


CAUSE = Cause(
    "carried-warming", kind="generator", group="warming", variants=_variants, ordered=True
)
