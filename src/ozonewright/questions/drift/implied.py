"""What a cause would have to be, and what it foretells for other on-times."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import inf
from typing import Any

import numpy as np

from ozonewright.questions.drift.cause import Parameter
from ozonewright.questions.drift.model import predicted
from ozonewright.questions.drift.posterior import Weighed
from ozonewright.questions.drift.result import CauseRow, CurveRow
from ozonewright.questions.drift.series import Array, Setup
from ozonewright.references.constants import M_O3
from ozonewright.results import Note
from ozonewright.units import Kind

BAND = (0.025, 0.5, 0.975)
GRID = 16
BEYOND = 1.25
"""How far past the longest run a curve goes."""
DRAWS = 256
QUIET = ("blank_in_guard", "cooling", "neutral")
"""Parameters that nobody can look at."""


def implied(one: Weighed) -> Note | None:
    """Return what the cause would have to be by the readings: middle and 95 % of each parameter."""
    values: dict[str, Any] = {}
    for place in one.model.own:
        shape = one.model.parameters[place]
        if shape.name in QUIET:
            continue
        drawn = shape.value(one.evidence.z[:, place]) * _shown(shape)
        low, middle, high = quantiles(drawn, one.share)
        values[shape.name] = {"low": low, "middle": middle, "high": high, "kind": shape.kind}
    if not values:
        return None
    return Note("drift-implied", "advice", {"cause": one.model.causes[0].name, "values": values})


def _shown(shape: Parameter) -> float:
    return M_O3 if shape.kind in (Kind.MASS, Kind.MASS_RATE) else 1.0


def quantiles(values: Array, share: Array) -> tuple[float, float, float]:
    """Return the ends and the middle of the 95 % of weighted draws."""
    order = np.argsort(values)
    ends = np.cumsum(share[order])
    low, middle, high = (
        float(values[order][min(int(np.searchsorted(ends, q)), len(values) - 1)]) for q in BAND
    )
    return low, middle, high


def curves_of(
    weighed: Sequence[Weighed], setup: Setup, rows: Sequence[CauseRow]
) -> Iterator[CurveRow]:
    """Yield, for each single cause that fits, what a cold run of any on-time would read."""
    grid = np.linspace(0.0, BEYOND * setup.on_time.max(), GRID + 1)[1:]
    columns = _grid(setup, grid)
    stream = np.random.default_rng(0)
    for row in rows:
        own = [one for one in weighed if [c.name for c in one.model.causes] == [row.cause]]
        if row.status != "fits" or not own:
            continue
        best = max(own, key=lambda one: one.evidence.log_z + np.log(one.model.weight))
        rows_drawn = stream.choice(len(best.share), DRAWS, p=best.share)
        told = predicted(columns, best.model.theta(best.evidence.z[rows_drawn])).total * M_O3
        low, middle, high = np.quantile(told, BAND, axis=0)
        for place, on_time in enumerate(grid):
            yield CurveRow(
                cause=row.cause,
                on_time=float(on_time),
                low=float(low[place]),
                middle=float(middle[place]),
                high=float(high[place]),
            )


def _grid(setup: Setup, grid: Array) -> Setup:
    columns = setup.take([setup.usual] * len(grid))
    return replace(
        columns,
        on_time=grid,
        discharge=np.ones(len(grid)),
        diverted=np.zeros(len(grid)),
        cold=np.ones(len(grid)),
        rest=np.full(len(grid), inf),
        place=np.zeros(len(grid)),
    )
