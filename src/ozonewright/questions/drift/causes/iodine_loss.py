"""Iodine carried off by the gas: long runs read low; small as long as iodide is plenty."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one, parameter

CAUSE = Cause(
    "iodine-loss",
    kind="trap",
    variants=lambda facts: one(parameter("loss", "LOSS_KNOWN" if facts.loss else "LOSS_UNKNOWN")),
)
