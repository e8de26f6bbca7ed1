"""Iodate that too little acid leaves as it is: long runs read low. More acid tells."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "iodate-left",
    kind="trap",
    variants=lambda facts: one(parameter("acid", "ACID_KNOWN" if facts.acid else "ACID_UNKNOWN")),
)
