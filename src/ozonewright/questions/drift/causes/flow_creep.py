"""Output that creeps from run to run: flow, voltage or feed wander. Alternated order tells."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "flow-creep",
    kind="generator",
    variants=lambda facts: one(parameter("creep", "CREEP", "value")),
    shows=lambda facts: facts.on_runs > 1,
    ordered=True,
)
