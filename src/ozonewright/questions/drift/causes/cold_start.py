"""Output that settles while the generator warms, anew in every cold run; it falls or rises."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant, parameter
from ozonewright.questions.drift.series import Facts
from ozonewright.references.priors import prior


def _variants(facts: Facts) -> tuple[Variant, ...]:
    settling = parameter("settling", "SETTLING")
    falls = prior("WARMING_FALLS").centre.value
    return (
        Variant(falls, (parameter("excess", "WARMING"), settling)),
        Variant(1.0 - falls, (parameter("excess", "WARMING", "below"), settling)),
    )


CAUSE = Cause("cold-start", kind="generator", group="warming", variants=_variants)
