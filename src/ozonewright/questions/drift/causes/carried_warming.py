"""Output that settles while the generator warms, and warmth that is carried into the next run.

Rests that differ tell it from a cold start in every run.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant, parameter
from ozonewright.questions.drift.series import Facts
from ozonewright.questions.drift.warmth import cooling, excesses, settling


def _variants(facts: Facts) -> tuple[Variant, ...]:
    rest = () if facts.rests else (parameter("rest", "REST"),)
    others = (settling(facts), cooling(facts), *rest)
    return tuple(
        Variant(chance, (excess, *others), {"carried": 1.0}) for chance, excess in excesses(facts)
    )


CAUSE = Cause(
    "carried-warming", kind="generator", group="warming", variants=_variants, ordered=True
)
