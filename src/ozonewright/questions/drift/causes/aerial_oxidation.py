"""Iodide that air turns into iodine, so much per minute of gas.

It scales with the on-time as ozone does: only a run with the discharge off shows it.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, iodine_by_itself

CAUSE = Cause(
    "aerial-oxidation",
    kind="blank",
    variants=lambda facts: iodine_by_itself("aerial", "AERIAL", facts),
    shows=lambda facts: facts.blank,
    hides=True,
)
