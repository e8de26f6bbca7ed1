"""Iodine that ozone did not free, the same in every run: reagents, light, acid, nitrite.

Short runs read high. A run with the discharge off shows it by itself.
"""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause, iodine_by_itself

CAUSE = Cause(
    "blank-surplus",
    kind="blank",
    variants=lambda facts: iodine_by_itself("blank", "BLANK", facts),
)
