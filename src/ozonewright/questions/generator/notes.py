"""What must be said beside the figures of a generator."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from ozonewright.questions.generator.fit import Fit
from ozonewright.questions.generator.model import Modelled
from ozonewright.questions.generator.points import Pattern, Point, TubeRun
from ozonewright.questions.generator.result import Sharper
from ozonewright.results import Note

FLOWS_APART = 1.3
"""Highest over lowest flow below which the runs count as one flow."""
OUTSIDE = 2.0
"""Times beyond the flows or powers of the runs from which a prediction is an extrapolation."""
POISONED = 0.1
"""Nitrogen oxides over ozone from which a discharge in air is near its end."""
WARMEST = 420.0
"""K, to which the model holds."""
SCATTERED = 0.06
HIGH_EFFICIENCY = 0.35
"""Share of the power above which no published discharge on oxygen stands (kogelschatz_2003)."""


def notes_of(fit: Fit, point: Point, here: Modelled, left_out: Mapping[str, str]) -> Iterator[Note]:
    """Yield what makes the answer doubtful, and what the model can't know."""
    runs = fit.runs
    if len(runs) == 1:
        yield Note("generator-one-run")
    elif _apart([run.point.flow for run in runs]) < FLOWS_APART:
        yield Note("generator-one-flow")
    if left_out:
        yield Note("generator-left-out", values={"runs": tuple(left_out.items())})
    yield from _unread(runs, point)
    yield from _far(runs, point)
    nox = float(np.median(here.nox[:, 0]))
    if nox > POISONED:
        yield Note("generator-poisoned", values={"nox": nox})
    elif point.nitrogen > 0.1:
        yield Note("generator-nox", "advice", {"nox": nox})
    if np.median(here.temperature[:, 0]) > WARMEST:
        yield Note("generator-hot")
    values = fit.lumped.values(fit.draws)
    scatter = float(np.median(values["scatter"]))
    if len(runs) > 2 and scatter > SCATTERED:
        yield Note("generator-scatter", values={"scatter": scatter})
    if np.median(values["efficiency"]) > HIGH_EFFICIENCY:
        yield Note("generator-high-efficiency")
    yield Note("generator-fitted", "advice", {"basis": fit.lumped.basis})
    yield Note("generator-cannot-know", "advice")


def _apart(values: Sequence[float]) -> float:
    return max(values) / min(values)


def _unread(runs: Sequence[TubeRun], point: Point) -> Iterator[Note]:
    if point.wall is None or any(run.point.wall is None for run in runs):
        yield Note("generator-wall-unknown")
    if any(run.cold for run in runs):
        yield Note("generator-cold-start")
    if all(run.point.power is None for run in runs):
        yield Note("generator-no-power")
    if point.water is None or any(run.point.water is None for run in runs):
        yield Note("generator-damp-unknown")


def _far(runs: Sequence[TubeRun], point: Point) -> Iterator[Note]:
    flows = [run.point.flow for run in runs]
    powers = [run.point.power for run in runs if run.point.power is not None]
    far = not min(flows) / OUTSIDE <= point.flow <= max(flows) * OUTSIDE
    if powers and point.power is not None:
        far = far or not min(powers) / OUTSIDE <= point.power <= max(powers) * OUTSIDE
    if far:
        yield Note("generator-extrapolated")
    airs = {run.point.nitrogen > 0.1 for run in runs}
    if (point.nitrogen > 0.1) not in airs:
        yield Note("generator-other-feed")


def notes_of_warmth(pattern: Pattern | None, walls_from: Mapping[str, str]) -> Iterator[Note]:
    """Yield how warm the tube is under a pattern, and where temperatures of runs come from."""
    if pattern is not None:
        temperatures = {"mean": pattern.mean, "trough": pattern.trough, "peak": pattern.peak}
        yield Note("generator-under-pattern", "advice", temperatures)
    if walls_from:
        yield Note("generator-walls-from", "advice", {"runs": tuple(walls_from.items())})


def next_notes(runs: Sequence[TubeRun], sharper: Sequence[Sharper]) -> Iterator[Note]:
    """Yield what to do next."""
    if sharper and sharper[0].share:
        yield Note("generator-run", "advice", {"run": sharper[0].change, "share": sharper[0].share})
    if any(run.point.wall is None for run in runs):
        yield Note("generator-read-wall", "advice")
    if any(run.point.power is None for run in runs):
        yield Note("generator-read-power", "advice")


def unknowns_of_runs(
    runs: Sequence[TubeRun], point: Point, left_out: Mapping[str, str]
) -> tuple[str, ...]:
    """Return the places of the documents that were left empty."""
    points = [point, *(run.point for run in runs)]
    found = list(dict.fromkeys(left_out.values()))
    if any(each.power is None for each in points):
        found.append("electrical.power")
    if any(each.wall is None for each in points):
        found.append("electrical.wall")
    if any(each.water is None for each in points):
        found.append("gas.dew_point")
    return tuple(dict.fromkeys(found))
