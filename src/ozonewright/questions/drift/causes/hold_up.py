"""Gas held between tube and liquid: the first seconds bring nothing. Short runs read low."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, Variant, one, parameter
from ozonewright.questions.drift.series import Facts


def _variants(facts: Facts) -> tuple[Variant, ...]:
    if facts.hold_up is not None:
        return one(parameter("lag", "LAG_KNOWN", times=facts.hold_up))
    return one(parameter("lag", "LAG"))


CAUSE = Cause("hold-up", kind="handling", variants=_variants)
