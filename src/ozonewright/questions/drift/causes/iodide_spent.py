"""Iodide runs out: long runs stop collecting. More iodide tells."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "iodide-spent",
    kind="trap",
    group="trap-full",
    variants=lambda facts: one(
        parameter("capacity", "IODIDE_KNOWN" if facts.iodide else "IODIDE_UNKNOWN")
    ),
)
