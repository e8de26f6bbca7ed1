"""Iodide that air turns into iodine, so much per minute of gas.

It scales with the on-time as ozone does: only a run with the discharge off shows it.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant, one, parameter
from ozonewright.questions.drift.series import Facts


def _variants(facts: Facts) -> tuple[Variant, ...]:
    aerial = parameter("aerial", "AERIAL")
    if facts.guard:
        # A guard bottle of other iodide, acid or age shows another share of it.
        return one(aerial, parameter("blank_in_guard", "BLANK_IN_GUARD", "logit"))
    return one(aerial)


CAUSE = Cause(
    "aerial-oxidation",
    kind="blank",
    variants=_variants,
    shows=lambda facts: facts.blank,
    hides=True,
)
