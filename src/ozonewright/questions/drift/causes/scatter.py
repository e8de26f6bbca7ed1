"""Runs scatter more than this method does; repeats tell, other conditions don't."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "scatter",
    kind="reading",
    variants=lambda facts: one(parameter("scatter", "SCATTER_LARGE")),
    shows=lambda facts: facts.on_runs > 1,
    pairs=False,
    ordered=True,
)
