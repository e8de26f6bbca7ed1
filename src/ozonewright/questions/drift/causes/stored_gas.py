"""Ozone stored in the line before the start. Short runs read high.

Alike to a late stop, except that a diverted run sends the stored gas to the tail bottle.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "stored-gas",
    kind="handling",
    group="start-stop",
    variants=lambda facts: one(parameter("stored", "STORED")),
)
