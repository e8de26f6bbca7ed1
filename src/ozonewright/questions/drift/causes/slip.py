"""Ozone that passes the bottles: every run reads low by the same share.

Invisible without a guard bottle, and not to be told from a blank without a run with the discharge
off.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "slip",
    kind="trap",
    variants=lambda facts: one(parameter("slip", "SLIP", "logit")),
    shows=lambda facts: facts.guard and facts.blank,
    hides=True,
)
