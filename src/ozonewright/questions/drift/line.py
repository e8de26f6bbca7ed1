"""The series as a line: points, steps from run to run, surplus and slope."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ozonewright.physics.assay.line import Line, line_errors_in_both, u_on_line
from ozonewright.questions.drift.result import BandRow, Fit, PointRow, StepRow
from ozonewright.questions.drift.series import SeriesRun
from ozonewright.references.constants import M_O3
from ozonewright.uncertain import Estimate, coverage_factor

COVERAGE = 0.95
BEYOND = 1.25
"""The band is told from no time to so many times the longest run."""
GRID = 20


def points_of(runs: Sequence[SeriesRun]) -> Iterator[PointRow]:
    """Yield the runs as they were read."""
    for run in runs:
        mass = run.ozone * M_O3
        yield PointRow(
            label=run.label,
            discharge="on" if run.discharge_on else "off",
            start=run.start,
            on_time=run.on_time,
            ozone=mass,
            u_ozone=run.u_ozone * M_O3,
            rate=mass / run.on_time if run.discharge_on else None,
        )


def steps_of(runs: Sequence[SeriesRun]) -> Iterator[StepRow]:
    """Yield what each run collected more than the next shorter one."""
    made = sorted((run for run in runs if run.discharge_on), key=lambda run: run.on_time)
    for short, long in pairwise(made):
        more = long.on_time - short.on_time
        if more > 0.0:
            ozone = (long.ozone - short.ozone) * M_O3
            yield StepRow(
                since=short.label, label=long.label, on_time=more, ozone=ozone, rate=ozone / more
            )


def line_of(runs: Sequence[SeriesRun]) -> Fit | None:
    """Return the line through the runs, or None without two different on-times.

    From the third run on, scatter beyond what the readings foresee widens both uncertainties.
    """
    made = [run for run in runs if run.discharge_on]
    x = [run.on_time for run in made]
    if len(set(x)) < 2:
        return None
    y = [run.ozone * M_O3 for run in made]
    u_x, u_y = [run.u_on_time for run in made], [run.u_ozone * M_O3 for run in made]
    line = line_errors_in_both(x=x, y=y, u_x=u_x, u_y=u_y)
    off = sum(
        (b - line.intercept - line.slope * a) ** 2 / (e**2 + (line.slope * d) ** 2)
        for a, b, d, e in zip(x, y, u_x, u_y, strict=True)
    )
    free = len(made) - 2
    ratio = (off / free) ** 0.5 if free else None
    wider = max(ratio, 1.0) if ratio is not None else 1.0
    dof = float(free) if ratio is not None and ratio > 1.0 else float("inf")
    return Fit(
        intercept=_estimate(line.intercept, line.u_intercept * wider, dof),
        slope=_estimate(line.slope, line.u_slope * wider, dof),
        scatter=ratio,
        band=tuple(_band(line, max(x), wider * coverage_factor(COVERAGE, dof))),
    )


def _band(line: Line, longest: float, k: float) -> Iterator[BandRow]:
    for place in range(GRID + 1):
        on_time = BEYOND * longest * place / GRID
        middle = line.intercept + line.slope * on_time
        half = k * float(u_on_line(x=on_time, line=line))
        yield BandRow(on_time=on_time, low=middle - half, middle=middle, high=middle + half)


def _estimate(value: float, u: float, dof: float) -> Estimate:
    k = coverage_factor(COVERAGE, dof)
    interval = (value - k * u, value + k * u)
    return Estimate(
        value=value, u=u, dof=dof, interval=interval, k=k, method="first order", budget=()
    )
