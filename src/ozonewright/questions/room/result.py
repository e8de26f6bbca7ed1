"""What the room question answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


@dataclass(frozen=True, kw_only=True)
class CaseRow(Row):
    """One way in which ozone gets out."""

    case: str = fact("what gets out", "")
    release: float | None = quantity(
        Kind.MASS_RATE, "mg/h", "ozone let out", stem="release", exact=True
    )
    puff: float | None = quantity(Kind.MASS, "mg", "ozone let out at once", stem="puff", exact=True)
    peak: float | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "just after the puff", stem="peak", exact=True
    )
    steady: float | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "in the end", stem="steady", exact=True
    )
    to_limit: float | None = quantity(
        Kind.TIME, "min", "limit passed after", stem="to_limit", exact=True
    )
    re_entry: float | None = quantity(
        Kind.TIME, "min", "below the limit again after", stem="re_entry", exact=True
    )
    air_changes_needed: float | None = quantity(
        Kind.RATE, "1/h", "air changes needed", stem="air_changes_needed", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class CourseRow(Row):
    """The room at one time after the release began."""

    time: float | None = quantity(Kind.TIME, "min", "after", stem="time", exact=True)
    ozone: float | None = quantity(Kind.MOLE_FRACTION, "ppm", "ozone", stem="ozone", exact=True)
    high: float | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "in one room of forty more than", stem="high", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class RoomAnswer(Result):
    """What people breathe, how soon, and what it takes."""

    room: str | None = fact("room")
    case: str = fact("what gets out", "")
    release: float | None = quantity(
        Kind.MASS_RATE, "mg/h", "ozone let out", stem="release", exact=True
    )
    puff: float | None = quantity(Kind.MASS, "mg", "ozone let out at once", stem="puff", exact=True)
    volume: float | None = quantity(Kind.VOLUME, "m3", "air of the room", stem="volume", exact=True)
    loss: float | None = quantity(
        Kind.RATE, "1/h", "loss of ozone, all ways", stem="loss", exact=True
    )
    limit_name: str | None = fact("limit")
    limit: float | None = quantity(Kind.MOLE_FRACTION, "ppm", "limit", stem="limit", exact=True)
    steady: Estimate | None = quantity(
        Kind.MASS_CONCENTRATION, "mg/m3", "in the end", stem="steady"
    )
    steady_fraction: Estimate | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "in the end", stem="steady"
    )
    steady_without_removal: float | None = quantity(
        Kind.MOLE_FRACTION,
        "ppm",
        "in the end, counting no loss on surfaces",
        stem="steady_without_removal",
        exact=True,
    )
    peak: float | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "just after the puff", stem="peak", exact=True
    )
    mean: float | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "mean over the limit's own time", stem="mean", exact=True
    )
    minutes_to_limit: float | None = fact("minutes until the limit is passed")
    earliest: float | None = quantity(
        Kind.TIME, "min", "in one room of forty sooner than", stem="earliest", exact=True
    )
    re_entry: float | None = quantity(
        Kind.TIME,
        "min",
        "below the limit again after the release ends",
        stem="re_entry",
        exact=True,
    )
    re_entry_latest: float | None = quantity(
        Kind.TIME, "min", "in one room of forty later than", stem="re_entry_latest", exact=True
    )
    air_changes_needed: Estimate | None = quantity(
        Kind.RATE, "1/h", "air changes needed", stem="air_changes_needed"
    )
    fan_needed: float | None = quantity(
        Kind.VOLUME_FLOW, "m3/h", "fresh air needed", stem="fan_needed", exact=True
    )
    rooms_over: float | None = quantity(
        Kind.SHARE, "%", "chance that the limit is passed", stem="rooms_over", exact=True
    )
    cases: tuple[CaseRow, ...] = listing("ways out")
    course: tuple[CourseRow, ...] = listing("over time")
