"""Output that settles while the generator warms, anew in every cold run; it falls or rises."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant
from ozonewright.questions.drift.series import Facts
from ozonewright.questions.drift.warmth import excesses, settling


def _variants(facts: Facts) -> tuple[Variant, ...]:
    return tuple(Variant(chance, (excess, settling(facts))) for chance, excess in excesses(facts))


CAUSE = Cause("cold-start", kind="generator", group="warming", variants=_variants)
