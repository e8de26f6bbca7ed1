"""One run that is not what was written: planned for actual minutes, a coarse or wrong reading."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one

CAUSE = Cause(
    "misread",
    kind="reading",
    variants=lambda facts: one(misread=1.0),
    shows=lambda facts: facts.on_runs > 1,
    ordered=True,
)
