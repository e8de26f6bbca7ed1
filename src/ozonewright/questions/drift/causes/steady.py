"""Nothing that matters: collected ozone is the output times the on-time."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, one

CAUSE = Cause("steady", kind="steady", variants=lambda facts: one(), pairs=False)
