"""Output of a setting: mean of its runs, or the slope where drift has determined a surplus."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from statistics import fmean, stdev

from ozonewright.errors import MissingValue
from ozonewright.physics.assay.line import Line, weighted_line
from ozonewright.references.limits import limit
from ozonewright.results import Note, Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate, Measured, Share, propagate
from ozonewright.units import Kind

COVERAGE = 0.95
ENOUGH_RUNS = 3
"""From so many runs on, their scatter stands in place of the uncertainty of the readings."""


SHARED = ("titrant", "standard", "burette", "pipette", "flask", "field blank", "blank")
"""How the names of readings begin that serve every run of a setting; scatter can't show them."""


@dataclass(frozen=True, slots=True)
class RunPoint:
    """One run of the setting: what it collected in its on-time; SI."""

    label: str
    on_time: float | None
    ozone: float | None
    u_ozone: float
    rate: float
    u_rate: float
    budget: tuple[Share, ...] = ()
    """Of that uncertainty, by reading."""


@dataclass(frozen=True, slots=True)
class Settled:
    """What drift has determined of the runs; SI."""

    verdict: str
    """A cause or a told-alike group of drift; two at once with + between them."""
    slope: Estimate | None = None
    """Of collected mass against on-time, as read, field blanks not taken off. [kg/s]"""
    surplus: Estimate | None = None
    """What no time at all would collect. [kg]"""


STEADY = "steady"
CONSTANT = ("blank-surplus", "timing-surplus", "stored-gas", "start-stop", "hold-up")
"""Causes that add the same to every run, or take it off: the slope is free of them."""
BLANKS = ("blank-surplus", "aerial-oxidation")
"""Causes that a field blank takes off."""


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
    by: str = fact("output is the", "mean")
    cause: str | None = fact("determined by drift")
    runs: tuple[SettingRow, ...] = listing("runs")


def setting_output(
    setting: str,
    points: Sequence[RunPoint],
    *,
    blank_known: bool = False,
    settled: Settled | None = None,
) -> SettingOutput:
    """Return the output of a setting.

    Parameters
    ----------
    setting : str
        Its name.
    points : sequence of RunPoint
        Its runs; a field blank is already taken off what they collected.
    blank_known : bool
        A field blank was made.
    settled : Settled
        What drift has determined, or None while it has determined nothing.

    Raises
    ------
    MissingValue
        No run of the setting has an output.
    """
    if not points:
        raise MissingValue(
            "no run of this setting has an output", got=setting, fix="Add a run with its titres."
        )
    line, way = _line(points), _way(settled, blank_known)
    mean = fmean(point.rate for point in points)
    scatter = stdev([point.rate for point in points]) if len(points) > 1 else None
    by_slope = way == "slope" and settled is not None and settled.slope is not None
    rate = _with_shared(settled.slope, points) if by_slope and settled else None
    surplus = settled.surplus if by_slope and settled else None
    return SettingOutput(
        setting=setting,
        count=len(points),
        rate=rate or _estimate(points, mean, scatter, None if way == "mean" else line),
        scatter=None if scatter is None or mean <= 0.0 else scatter / mean,
        slope=rate.value if rate else line.slope if line else None,
        surplus=surplus.value if surplus else line.intercept if line else None,
        u_surplus=surplus.u if surplus else line.u_intercept if line else None,
        surplus_ruled_out=way != "open",
        by="slope" if rate else "mean",
        cause=settled.verdict if settled else None,
        runs=tuple(
            SettingRow(label=p.label, on_time=p.on_time, ozone=p.ozone, rate=p.rate) for p in points
        ),
        notes=tuple(_notes(points, scatter, mean, line, settled, way)),
        next=tuple(_next(points, blank_known, settled, way)),
        sources=("rakness_1996", "gordon_1983"),
        methods=(
            "slope of the line through collected mass, errors in both"
            if rate
            else "mean of the runs, Student t on their scatter",
        ),
    )


def _way(settled: Settled | None, blank_known: bool) -> str:
    """Return what the output is: the ``slope``, the ``mean``, or a mean with a surplus ``open``."""
    if settled is None:
        return "open"
    causes = settled.verdict.split("+")
    if settled.verdict == STEADY or (blank_known and all(cause in BLANKS for cause in causes)):
        return "mean"
    constant = settled.slope is not None and all(cause in CONSTANT for cause in causes)
    return "slope" if constant else "open"


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
    by_scatter = 0.0 if scatter is None else scatter / len(points) ** 0.5
    if len(points) < ENOUGH_RUNS and by_scatter <= readings:
        found = _added(mean, readings, float("inf"), 0.0)
    else:
        found = _added(mean, by_scatter, len(points) - 1.0, _shared(points) * mean)
    if line is None:
        return found
    low, high = min(found.interval[0], line.slope), max(found.interval[1], line.slope)
    # Whoever goes on with u alone must not be surer than the interval.
    u = max(found.u, (high - mean) / found.k, (mean - low) / found.k)
    return replace(found, interval=(low, high), u=u)


def _with_shared(slope: Estimate | None, points: Sequence[RunPoint]) -> Estimate | None:
    """Return the slope with what moves all runs alike, which no line through them shows."""
    if slope is None:
        return None
    return _added(slope.value, slope.u, max(slope.dof, 1.0), _shared(points) * slope.value)


def _added(value: float, own: float, dof: float, shared: float) -> Estimate:
    inputs = {
        "own": Measured(value, own, "runs", Kind.MASS_RATE, dof=dof),
        "shared": Measured(0.0, abs(shared), "what all runs share", Kind.MASS_RATE),
    }
    found: Estimate = propagate(lambda own, shared: own + shared, inputs, coverage=COVERAGE)
    return found


def _shared(points: Sequence[RunPoint]) -> float:
    """Return the relative uncertainty that all runs of the setting have in common."""
    return fmean(
        (sum(abs(s.share_percent) for s in point.budget if s.input.startswith(SHARED)) / 100.0)
        ** 0.5
        * point.u_rate
        / point.rate
        if point.rate > 0.0
        else 0.0
        for point in points
    )


def _notes(
    points: Sequence[RunPoint],
    scatter: float | None,
    mean: float,
    line: Line | None,
    settled: Settled | None,
    way: str,
) -> Iterator[Note]:
    if settled is not None:
        yield _determined(settled, way)
    if len(points) == 1:
        yield Note("setting-one-run")
    elif len(points) < ENOUGH_RUNS and way != "slope":
        yield Note("setting-two-runs")
    allowed = limit("REPLICATE_SCATTER_HIGH").value * mean
    if way != "slope" and scatter is not None and scatter > allowed > 0.0:
        yield Note("setting-scatter", values={"share": scatter / mean})
    if way != "open":
        return
    if line is None:
        yield Note("setting-same-minutes")
    else:
        yield Note(
            "setting-surplus",
            values={"surplus": line.intercept, "u": line.u_intercept, "slope": line.slope},
        )


def _determined(settled: Settled, way: str) -> Note:
    if way == "slope":
        surplus = settled.surplus
        return Note(
            "setting-by-slope",
            "advice",
            {
                "cause": settled.verdict,
                "surplus": surplus.value if surplus else None,
                "u": surplus.u if surplus else None,
            },
        )
    if settled.verdict == STEADY:
        return Note("setting-steady", "advice")
    if way == "mean":
        return Note("setting-blank-settles", "advice", {"cause": settled.verdict})
    return Note("setting-other-cause", values={"cause": settled.verdict})


def _next(
    points: Sequence[RunPoint], blank_known: bool, settled: Settled | None, way: str
) -> Iterator[Note]:
    times = {point.on_time for point in points}
    other_minutes = way == "open" and settled is None and len(times) < 2
    if len(points) < ENOUGH_RUNS:
        missing = ENOUGH_RUNS - len(points)
        yield Note("setting-repeat", "advice", {"missing": missing, "longer": other_minutes})
    if way != "open":
        yield Note("setting-narrow", "advice")
        return
    if settled is not None:
        yield Note("setting-mend-cause", "advice", {"cause": settled.verdict})
        return
    if other_minutes and len(points) >= ENOUGH_RUNS:
        yield Note("setting-other-minutes", "advice")
    if not blank_known:
        yield Note("setting-field-blank", "advice")
    elif len(times) > 1:
        yield Note("setting-alternate", "advice")
    if len(points) > 1:
        yield Note("setting-ask-drift", "advice")
