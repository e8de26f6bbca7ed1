"""Iodine that ozone did not free, the same in every run: reagents, light, acid, nitrite.

Short runs read high. A run with the discharge off shows it by itself.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant, one, parameter
from ozonewright.questions.drift.series import Facts


def _variants(facts: Facts) -> tuple[Variant, ...]:
    blank = parameter("blank", "BLANK")
    if facts.guard:
        return one(blank, parameter("blank_in_guard", "BLANK_IN_GUARD", "logit"))
    return one(blank)


CAUSE = Cause("blank-surplus", kind="blank", variants=_variants)
