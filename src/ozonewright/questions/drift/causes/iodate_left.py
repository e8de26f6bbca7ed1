"""Iodate that too little acid leaves as it is: long runs read low. More acid tells.

Not all iodine turns into iodate, so that a share of the rest is found all the same.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "iodate-left",
    kind="trap",
    group="trap-full",
    variants=lambda facts: one(
        parameter("acid", "ACID_KNOWN" if facts.acid else "ACID_UNKNOWN"),
        parameter("neutral", "NEUTRAL", "logit"),
    ),
)
