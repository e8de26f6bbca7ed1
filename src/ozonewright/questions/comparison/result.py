"""What the comparison answers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from ozonewright.records.run import Run
from ozonewright.results import Result, Row, Share, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Made:
    """One run of a setting: its record, and what it gave; SI."""

    run: Run
    rate: Estimate
    feed_flow: Estimate | None = None


@dataclass(frozen=True, slots=True)
class Arm:
    """One of the two settings: its runs, and the output of the setting."""

    name: str
    made: Sequence[Made]
    level: Estimate
    """Output of the setting. [kg/s]"""
    slope: float | None = None
    """Of collected mass against on-time; another value that the output may have. [kg/s]"""
    surplus_ruled_out: bool = False
    rig: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """What the rigs of its runs say, by place; empty where no rig is kept."""
    by_slope: Estimate | None = None
    """The slope that is the output since drift has determined a surplus; its u is of the runs'
    own readings and scatter alone. [kg/s]"""


@dataclass(frozen=True, kw_only=True)
class Differing(Row):
    """One thing that was not the same in both settings."""

    factor: str = fact("factor", "")
    unit: str = fact("unit", "")
    first: list[float | str] = fact("first setting")
    second: list[float | str] = fact("second setting")
    beyond: bool = fact("beyond the uncertainty of the readings", True)


@dataclass(frozen=True, kw_only=True)
class Planned(Row):
    """How many runs tell a difference."""

    difference: float | None = quantity(
        Kind.SHARE, "%", "difference", stem="difference", exact=True
    )
    runs_per_arm: int | None = fact("runs of each setting")


@dataclass(frozen=True, kw_only=True)
class ComparedRun(Row):
    """One run of one of the settings."""

    label: str = fact("run", "")
    setting: str = fact("setting", "")
    rate: float | None = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate", exact=True)
    u_rate: float | None = quantity(
        Kind.MASS_RATE, "g/h", "its standard uncertainty", stem="u_rate", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class Comparison(Result):
    """Two settings beside each other."""

    first: str = fact("first setting", "")
    second: str = fact("second setting", "")
    first_runs: int = fact("runs of the first", 0)
    second_runs: int = fact("runs of the second", 0)
    first_rate: Estimate | None = quantity(
        Kind.MASS_RATE, "g/h", "output of the first", stem="first_rate"
    )
    second_rate: Estimate | None = quantity(
        Kind.MASS_RATE, "g/h", "output of the second", stem="second_rate"
    )
    ratio: Estimate | None = quantity(Kind.DIMENSIONLESS, "", "first over second", stem="ratio")
    dof: float | None = quantity(
        Kind.DIMENSIONLESS, "", "degrees of freedom", stem="degrees_of_freedom", exact=True
    )
    """None where the readings alone tell the uncertainty: there is no end to them."""
    told_apart: bool = fact("told apart", False)
    surplus_ruled_out: bool = fact("surplus ruled out", False)
    ratio_per_oxygen: Estimate | None = quantity(
        Kind.DIMENSIONLESS, "", "first over second, per oxygen fed", stem="ratio_per_oxygen"
    )
    scatter: float | None = quantity(
        Kind.SHARE, "%", "scatter of one run", stem="scatter", exact=True
    )
    scatter_from: str = fact("scatter from", "")
    differs: tuple[Differing, ...] = listing("what differs")
    not_compared: list[str] = fact("stated in one setting alone, or in none")
    runs: tuple[ComparedRun, ...] = listing("runs")
    plan: tuple[Planned, ...] = listing("runs for a difference")
    order: list[str] = fact("order of the next runs")
    budget: tuple[Share, ...] = listing("where the uncertainty of the ratio comes from")
