"""What the drift question answers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ozonewright.results import Note, Result, Row, by_name, fact, listing, part, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


@dataclass(frozen=True, kw_only=True)
class PointRow(Row):
    """One run of the series."""

    label: str = fact("run", "")
    discharge: str = fact("discharge", "on")
    start: str | None = fact("start")
    on_time: float | None = quantity(Kind.TIME, "s", "on-time", stem="on_time", exact=True)
    ozone: float | None = quantity(Kind.MASS, "mg", "ozone read", stem="ozone", exact=True)
    u_ozone: float | None = quantity(
        Kind.MASS, "mg", "its standard uncertainty", stem="u_ozone", exact=True
    )
    rate: float | None = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate", exact=True)


@dataclass(frozen=True, kw_only=True)
class StepRow(Row):
    """What one run collected more than the next shorter one."""

    since: str = fact("from run", "")
    label: str = fact("to run", "")
    on_time: float | None = quantity(Kind.TIME, "s", "more on-time", stem="on_time", exact=True)
    ozone: float | None = quantity(Kind.MASS, "mg", "more ozone", stem="ozone", exact=True)
    rate: float | None = quantity(
        Kind.MASS_RATE, "g/h", "output between them", stem="rate", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class BandRow(Row):
    """The line at one on-time, and the 95 % interval of the line there."""

    on_time: float | None = quantity(Kind.TIME, "s", "on-time", stem="on_time", exact=True)
    low: float | None = quantity(Kind.MASS, "mg", "lower end of 95 %", stem="low", exact=True)
    middle: float | None = quantity(Kind.MASS, "mg", "the line", stem="middle", exact=True)
    high: float | None = quantity(Kind.MASS, "mg", "upper end of 95 %", stem="high", exact=True)


@dataclass(frozen=True, kw_only=True)
class Fit(Row):
    """The weighted line through collected ozone against on-time, errors in both."""

    intercept: Estimate | None = quantity(Kind.MASS, "mg", "surplus", stem="intercept")
    slope: Estimate | None = quantity(Kind.MASS_RATE, "mg/min", "slope", stem="slope")
    scatter: float | None = fact("scatter about the line over what the readings foresee")
    band: tuple[BandRow, ...] = listing("the line and its band")


@dataclass(frozen=True, kw_only=True)
class CauseRow(Row):
    """What is to be said of one cause, or of two at once (``a+b``)."""

    cause: str = fact("cause", "")
    group: str = fact("told-alike group", "")
    kind: str = fact("class", "")
    probability: float | None = fact("probability; null where the series can't show it")
    status: str = fact("status", "")
    reason: str = fact("reason: sign, size or shape", "")
    ruled_out: bool = fact("probability below 0.001 and a reason", False)
    implied: Note | None = fact("what it would have to be")


@dataclass(frozen=True, kw_only=True)
class GroupRow(Row):
    """A told-alike group or a class."""

    group: str = fact("group", "")
    probability: float = fact("probability", 0.0)


@dataclass(frozen=True, kw_only=True)
class CurveRow(Row):
    """What one cause foretells for a cold run of an on-time, as it would be read."""

    cause: str = fact("cause", "")
    on_time: float | None = quantity(Kind.TIME, "s", "on-time", stem="on_time", exact=True)
    low: float | None = quantity(Kind.MASS, "mg", "lower end of 95 %", stem="low", exact=True)
    middle: float | None = quantity(Kind.MASS, "mg", "middle", stem="middle", exact=True)
    high: float | None = quantity(Kind.MASS, "mg", "upper end of 95 %", stem="high", exact=True)


@dataclass(frozen=True, kw_only=True)
class NextRow(Row):
    """One further run and what it would tell."""

    what: Note | None = fact("what to do")
    start: str = fact("start", "cold")
    on_time: float | None = quantity(Kind.TIME, "s", "on-time", stem="on_time", exact=True)
    discharge: str = fact("discharge", "on")
    change: str = fact("what is changed besides", "")
    bits: float = fact("information on the cause, in bits", 0.0)
    minutes: float = fact("minutes on the bench before the titration", 0.0)
    titre: Mapping[str, float] = by_name(
        Kind.VOLUME,
        "mL",
        "expected titre by cause, of the guard bottle where one is set",
        key="titre_ml_by_cause",
    )
    u_titre: Mapping[str, float] = by_name(
        Kind.VOLUME, "mL", "its standard deviation", key="u_titre_ml_by_cause"
    )
    decide: Note | None = fact("how the titre decides")
    cheapest: bool = fact("the cheapest that decides", False)
    then: Note | None = fact("what tells the rest apart")


@dataclass(frozen=True, kw_only=True)
class Drift(Result):
    """Why the runs of a setting disagree, and what to measure next."""

    setting: str | None = fact("setting")
    determined: bool = fact("determined", False)
    verdict: str | None = fact("cause or told-alike group")
    even: bool = fact("nothing that matters between short and long runs", False)
    threshold: float = fact("probability that a verdict needs", 0.0)
    points: tuple[PointRow, ...] = listing("runs")
    steps: tuple[StepRow, ...] = listing("from run to run")
    fit: Fit | None = part("line")
    causes: tuple[CauseRow, ...] = listing("causes")
    groups: tuple[GroupRow, ...] = listing("told-alike groups")
    classes: tuple[GroupRow, ...] = listing("classes of causes")
    next: tuple[NextRow, ...] = listing("next measurement, ranked by bits/(minutes + 25)")
    curves: tuple[CurveRow, ...] = listing("what the causes that fit foretell")
    titrant: float | None = quantity(
        Kind.CONCENTRATION, "mol/L", "titrant of the next run", stem="titrant", exact=True
    )
    assumed: tuple[Note, ...] = fact("assumed", ())
