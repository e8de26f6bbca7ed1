"""Mean of the runs of a setting, with their scatter, widened while a surplus is not ruled out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from ozonewright.errors import MissingValue
from ozonewright.physics.assay.line import Line, weighted_line
from ozonewright.references.limits import limit
from ozonewright.results import Note, Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate, coverage_factor
from ozonewright.units import Kind

COVERAGE = 0.95
ENOUGH_RUNS = 3
"""From so many runs on, their scatter stands in place of the uncertainty of the readings."""


@dataclass(frozen=True, slots=True)
class RunPoint:
    """One run of the setting: what it collected in its on-time; SI."""

    label: str
    on_time: float | None
    ozone: float | None
    u_ozone: float
    rate: float
    u_rate: float


@dataclass(frozen=True, kw_only=True)
class SettingRow(Row):
    """One run beside its setting."""

    label: str = fact("run", "")
    on_time: float | None = quantity(Kind.TIME, "s", "on-time", stem="on_time", exact=True)
    ozone: float | None = quantity(Kind.MASS, "mg", "ozone", stem="ozone", exact=True)
    rate: float | None = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate", exact=True)


@dataclass(frozen=True, kw_only=True)
class SettingOutput(Result):
    """The output of a setting."""

    setting: str = fact("setting", "")
    count: int = fact("runs", 0)
    rate: Estimate | None = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate")
    scatter: float | None = quantity(
        Kind.SHARE, "%", "scatter from run to run", stem="scatter", exact=True
    )
    slope: float | None = quantity(
        Kind.MASS_RATE, "mg/min", "slope of collected against on-time", stem="slope", exact=True
    )
    surplus: float | None = quantity(
        Kind.MASS, "mg", "surplus at no time", stem="intercept", exact=True
    )
    u_surplus: float | None = quantity(
        Kind.MASS, "mg", "its standard uncertainty", stem="u_intercept", exact=True
    )
    surplus_ruled_out: bool = fact("surplus ruled out", False)
    runs: tuple[SettingRow, ...] = listing("runs")


def setting_output(
    setting: str, points: Sequence[RunPoint], *, blank_known: bool = False
) -> SettingOutput:
    """Return the mean output of a setting's runs; `blank_known` where a field blank was made.

    Raises
    ------
    MissingValue
        No run of the setting has an output.
    """
    if not points:
        raise MissingValue(
            "no run of this setting has an output", got=setting, fix="Add a run with its titres."
        )
    line = _line(points)
    mean = fmean(point.rate for point in points)
    scatter = stdev([point.rate for point in points]) if len(points) > 1 else None
    rate = _estimate(points, mean, scatter, line)
    return SettingOutput(
        setting=setting,
        count=len(points),
        rate=rate,
        scatter=None if scatter is None or mean <= 0.0 else scatter / mean,
        slope=line.slope if line else None,
        surplus=line.intercept if line else None,
        u_surplus=line.u_intercept if line else None,
        runs=tuple(
            SettingRow(label=p.label, on_time=p.on_time, ozone=p.ozone, rate=p.rate) for p in points
        ),
        notes=tuple(_notes(points, scatter, mean, line)),
        next=tuple(_next(points, blank_known)),
        sources=("rakness_1996", "gordon_1983"),
        methods=("mean of the runs, Student t on their scatter",),
    )


def _line(points: Sequence[RunPoint]) -> Line | None:
    """Return the line through collected mass, or None without two different on-times."""
    known = [(p.on_time, p.ozone, p.u_ozone) for p in points if p.on_time and p.ozone is not None]
    if len({on_time for on_time, _, _ in known}) < 2 or any(u <= 0.0 for _, _, u in known):
        return None
    x, y, u = zip(*known, strict=True)
    return weighted_line(x=[float(a) for a in x], y=[float(b) for b in y], u=u)


def _estimate(
    points: Sequence[RunPoint], mean: float, scatter: float | None, line: Line | None
) -> Estimate:
    """Return the mean: a few runs keep the larger of scatter and readings."""
    readings = max(point.u_rate for point in points)
    if scatter is None:
        u, dof = readings, float("inf")
    elif len(points) < ENOUGH_RUNS:
        by_scatter = scatter / len(points) ** 0.5
        u, dof = (by_scatter, 1.0) if by_scatter > readings else (readings, float("inf"))
    else:
        u, dof = scatter / len(points) ** 0.5, len(points) - 1.0
    k = coverage_factor(COVERAGE, dof)
    low, high = mean - k * u, mean + k * u
    if line is not None:
        low, high = min(low, line.slope), max(high, line.slope)
    return Estimate(
        value=mean, u=u, dof=dof, interval=(low, high), k=k, method="first order", budget=()
    )


def _notes(
    points: Sequence[RunPoint], scatter: float | None, mean: float, line: Line | None
) -> Iterator[Note]:
    if len(points) == 1:
        yield Note("setting-one-run")
    elif len(points) < ENOUGH_RUNS:
        yield Note("setting-two-runs")
    allowed = limit("REPLICATE_SCATTER_HIGH").value * mean
    if scatter is not None and scatter > allowed > 0.0:
        yield Note("setting-scatter", values={"share": scatter / mean})
    if line is None:
        yield Note("setting-same-minutes")
    else:
        yield Note(
            "setting-surplus",
            values={"surplus": line.intercept, "u": line.u_intercept, "slope": line.slope},
        )


def _next(points: Sequence[RunPoint], blank_known: bool) -> Iterator[Note]:
    if len(points) < ENOUGH_RUNS:
        yield Note("setting-repeat", "advice", {"missing": ENOUGH_RUNS - len(points)})
    times = {point.on_time for point in points}
    if len(times) < 2:
        yield Note("setting-other-minutes", "advice")
    if not blank_known:
        yield Note("setting-field-blank", "advice")
    elif len(times) > 1:
        yield Note("setting-alternate", "advice")
