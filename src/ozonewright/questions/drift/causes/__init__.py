"""The causes, one small file each; their order is the order in which they are shown."""

from __future__ import annotations

from ozonewright.questions.drift.cause import Cause
from ozonewright.questions.drift.causes import (
    aerial_oxidation,
    blank_surplus,
    carried_warming,
    cold_start,
    flow_creep,
    hold_up,
    iodate_left,
    iodide_spent,
    iodine_loss,
    misread,
    other,
    scatter,
    slip,
    steady,
    stored_gas,
    timing_surplus,
)

CAUSES: tuple[Cause, ...] = tuple(
    module.CAUSE
    for module in (
        steady,
        blank_surplus,
        aerial_oxidation,
        timing_surplus,
        stored_gas,
        hold_up,
        cold_start,
        carried_warming,
        iodide_spent,
        iodine_loss,
        iodate_left,
        slip,
        flow_creep,
        misread,
        scatter,
        other,
    )
)
BY_NAME = {cause.name: cause for cause in CAUSES}
