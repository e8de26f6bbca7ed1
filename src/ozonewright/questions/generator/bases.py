"""Yields at the plug and of the discharge, where runs know both powers."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, hypot

from ozonewright.questions.generator.points import Basis, TubeRun
from ozonewright.uncertain import Estimate, Measured, propagate, repeats
from ozonewright.units import Kind


def supply_of(runs: Sequence[TubeRun]) -> Estimate | None:
    """Return what the supply passes on, over the runs that know both powers.

    Meter and loop are the same in all runs, so their doubt is not lessened by their number.
    """
    each = [
        propagate(lambda plug, discharge: discharge / plug,
                  {"plug": run.plug, "discharge": run.discharge})
        for run in runs
        if run.plug is not None and run.discharge is not None
    ]  # fmt: skip
    if not each:
        return None
    shared = fsum(one.u for one in each) / len(each)
    mean = Measured(each[0].value, shared, "supply", Kind.SHARE)
    if len(each) > 1:
        scatter = repeats([one.value for one in each], "supply", Kind.SHARE)
        mean = Measured(scatter.value, hypot(scatter.u, shared), "supply", Kind.SHARE)
    found: Estimate = propagate(lambda supply: 1.0 * supply, {"supply": mean})
    return found


def yield_of_discharge(
    energy_yield: Estimate | None, basis: Basis, supply: Estimate | None
) -> Estimate | None:
    """Return ozone for the energy that the gas gets; None where that is not known."""
    if energy_yield is None or basis == "discharge":
        return energy_yield
    if supply is None:
        return None
    found: Estimate = propagate(
        lambda at_plug, supply: at_plug / supply,
        {
            "at_plug": Measured(energy_yield.value, energy_yield.u, "yield", Kind.YIELD),
            "supply": Measured(supply.value, supply.u, "supply", Kind.SHARE),
        },
    )
    return found
