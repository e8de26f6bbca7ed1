"""The concentration along a rig, as far as a run tells it."""

from __future__ import annotations

from ozonewright.physics.assay.train import slip_from_guard_share
from ozonewright.questions.output import Output
from ozonewright.records.rig import Rig
from ozonewright.uncertain import Estimate

HALF = 0.5
"""A guard bottle with more than this share stands in the wrong order."""


def concentrations(rig: Rig, found: Output | None) -> dict[str, float]:
    """Return the concentration behind parts of a rig by their names. [kg/mol]

    Behind its one discharge tube as the run measured it. Behind a primary and a guard bottle where
    the run had both: from the guard share, each bottle letting the same share pass.
    """
    tubes = rig.of_kind("discharge tube")
    if found is None or not isinstance(found.concentration, Estimate) or len(tubes) != 1:
        return {}
    made = found.concentration.value
    along = {tubes[0].name: made}
    bottles = {part.words.get("role"): part.name for part in rig.of_kind("bottle")}
    share = found.guard_share
    if not isinstance(share, Estimate) or len(found.bottles) != 2 or share.value >= HALF:
        return along
    if {"primary", "guard"} <= bottles.keys():
        slip = float(slip_from_guard_share(guard_share=share.value))
        along[bottles["primary"]] = slip * made
        along[bottles["guard"]] = slip * slip * made
    return along
