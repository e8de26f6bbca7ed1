"""More seconds of gas than were timed: a late stop. Short runs read high.

A diverted run shows it too, which tells it from a generator that settles.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "timing-surplus",
    kind="handling",
    group="start-stop",
    variants=lambda facts: one(parameter("late", "TIMING")),
)
