"""Runs that no generator could have made."""

from __future__ import annotations

from ozonewright.errors import Inconsistent
from ozonewright.physics.generator.energy import highest_yield
from ozonewright.questions.generator.points import TubeRun
from ozonewright.references.constants import M_O3, O3_FORMATION_ENTHALPY


def refuse_impossible(run: TubeRun) -> None:
    """Refuse a run that gave more than its energy or its oxygen can."""
    power, point = run.point.power, run.point
    limit = float(highest_yield(formation_enthalpy=O3_FORMATION_ENTHALPY))
    low = run.rate.value - 2.0 * run.rate.u
    if power is not None and low * M_O3 / power > limit:
        raise Inconsistent(
            "this run gave more ozone than its power could make",
            where=f"{run.label}: electrical.power",
            got=f"{run.rate.value * M_O3 / power / limit:.3g} times the most that is possible",
            fix="Mend its power, on-time or titres.",
        )
    if low * 1.5 > point.flow * point.oxygen:
        raise Inconsistent(
            "this run gave more ozone than its oxygen could make",
            where=f"{run.label}: gas.flow",
            got=f"{1.5 * run.rate.value / (point.flow * point.oxygen):.3g} times the oxygen fed",
            fix="Mend its flow, feed, on-time or titres.",
        )
