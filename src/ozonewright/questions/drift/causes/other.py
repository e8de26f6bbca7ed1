"""Something that stands on no list: a bend without a reason, and a shift with each change."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant, one, parameter
from ozonewright.questions.drift.series import Facts


def _variants(facts: Facts) -> tuple[Variant, ...]:
    shifts = [parameter(f"shift {kind}", "OTHER_SHIFT", "value") for kind in facts.kinds]
    return one(parameter("bend", "OTHER_BEND", "value"), *shifts)


CAUSE = Cause("other", kind="other", variants=_variants, weight=0.3, pairs=False, ordered=True)
