"""From the runs to what was set in each, and to what is known of the series."""

from __future__ import annotations

from collections.abc import Sequence
from math import nan

import numpy as np

from ozonewright.physics.chemistry.iodine import (
    free_iodine,
    iodine_carried_off,
    triiodide_constant,
)
from ozonewright.questions.drift.series import (
    Array,
    Base,
    Facts,
    Rig,
    SeriesRun,
    Setup,
    start_code,
    usual_run,
)
from ozonewright.references.constants import ACID_PER_OZONE, IODIDE_PER_OZONE

ROOM_TEMPERATURE = 295.15
"""Of the bottles where none is stated (common practice): 22 °C. [K]"""
COLD: dict[str | None, float] = {"cold": 1.0, "warm": 0.0, "diverted": 0.0, None: nan}


def setup_of(runs: Sequence[SeriesRun], rig: Rig, facts: Facts) -> Setup:
    """Return what was set in each run; on-runs count their place in order."""
    known = [run.flow for run in runs if run.flow is not None]
    flow = np.array([1.0 if run.flow is None else run.flow / known[0] for run in runs])
    cold = np.array([COLD[run.start] for run in runs])
    diverted = np.array([float(run.start == "diverted") for run in runs])
    times = np.array([run.iodide_times for run in runs])
    iodide = _iodide(runs) if facts.iodide else times
    acid = _acid(runs) if facts.acid else np.array([run.acid_times for run in runs])
    usual = usual_run(runs)
    first = next(place for place, run in enumerate(runs) if run.discharge_on)
    return Setup(
        on_time=np.array([run.on_time for run in runs]),
        u_on_time=np.array([run.u_on_time for run in runs]),
        discharge=np.array([float(run.discharge_on) for run in runs]),
        diverted=diverted,
        cold=cold,
        rest=np.array([nan if run.rest is None else run.rest for run in runs]),
        place=np.arange(len(runs), dtype=float),
        flow=flow,
        iodide=iodide,
        loss=_loss(runs, rig) if facts.loss else 1.0 / times,
        acid=acid,
        bottles=np.array([float(run.bottles) for run in runs]),
        guarded=np.array([float(run.guard is not None) for run in runs]),
        usual=usual,
        base=Base(
            on_time=runs[usual].on_time,
            start=float(start_code(cold, diverted)[first]),
            flow=float(flow[first]),
            iodide=float(iodide[first]),
            acid=float(acid[first]),
        ),
    )


def facts_of(runs: Sequence[SeriesRun], rig: Rig, *, order: bool) -> Facts:
    """Return what is known of the series."""
    made = [run for run in runs if run.discharge_on]
    iodide = all(run.iodide is not None for run in made)
    stated = {run.start for run in made if run.start is not None}
    return Facts(
        iodide=iodide,
        loss=iodide and all(run.flow is not None and run.volume is not None for run in made),
        acid=all(run.protons is not None for run in made),
        hold_up=rig.hold_up,
        guard=any(run.guard is not None for run in made),
        blank=len(made) < len(runs),
        on_runs=len(made),
        order=order,
        guessed=any(run.guessed for run in made),
        warm_start=bool(stated - {"cold"}),
        rests=all(run.rest is not None for run in runs[1:]),
        kinds=tuple(sorted(_changed(made))),
        settling=rig.settling,
        excess=rig.excess,
    )


def _changed(made: Sequence[SeriesRun]) -> set[str]:
    """Return what is not the same in all runs, besides the on-time."""
    traits: dict[str, set[object]] = {
        "start": {run.start for run in made},
        "flow": {run.flow for run in made},
        "iodide": {(run.iodide, run.iodide_times) for run in made},
        "acid": {(run.protons, run.acid_times) for run in made},
    }
    return {name for name, values in traits.items() if len(values) > 1}


def _iodide(runs: Sequence[SeriesRun]) -> Array:
    return _filled([(run.iodide or nan) / IODIDE_PER_OZONE for run in runs])


def _acid(runs: Sequence[SeriesRun]) -> Array:
    return _filled([(run.protons or nan) / ACID_PER_OZONE for run in runs])


def _loss(runs: Sequence[SeriesRun], rig: Rig) -> Array:
    return _filled([loss_of_run(run, rig.temperature or ROOM_TEMPERATURE) for run in runs])


def _filled(values: Sequence[float]) -> Array:
    """Return the values; a field blank that does not state one has that of the runs."""
    found = np.array(values)
    return np.where(np.isfinite(found), found, np.nanmedian(found))


def loss_of_run(run: SeriesRun, temperature: float) -> float:
    """Return the share of iodine that the gas carries off per second, halfway through a run."""
    if run.iodide is None or run.volume is None or run.flow is None:
        return nan
    # Halfway through, half the iodine is there and half the iodide it was made from is gone.
    iodine = max(0.5 * run.ozone, 1e-9) / run.volume
    iodide = max(run.iodide / run.volume - IODIDE_PER_OZONE * iodine, iodine * 1e-3)
    constant = triiodide_constant(temperature=temperature)
    share = free_iodine(iodine=iodine, iodide=iodide + iodine, constant=constant)
    return float(
        iodine_carried_off(
            free_share=share, gas_flow=run.flow, volume=run.volume, temperature=temperature
        )
    )
