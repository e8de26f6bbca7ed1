"""What the count answers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ozonewright.records.sign import SignRow
from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


@dataclass(frozen=True, kw_only=True)
class MarkRow(Row):
    """A point of on-time at which there is something to do."""

    name: str = fact("mark", "")
    on_time: float | None = quantity(Kind.TIME, "min", "at on-time", stem="on_time", exact=True)
    left: float | None = quantity(Kind.TIME, "s", "on-time left", stem="left", exact=True)
    passed: bool = fact("passed", False)


@dataclass(frozen=True, kw_only=True)
class EventRow(Row):
    """One event that counts."""

    id: str = fact("id", "")
    what: str = fact("event", "")
    when: datetime | None = fact("when")
    on_time: float | None = quantity(Kind.TIME, "s", "on-time then", stem="on_time", exact=True)
    sent_after: float | None = quantity(
        Kind.TIME, "s", "sent later by", stem="sent_after", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class Count(Result):
    """The count of one run or reaction so far."""

    of: str = fact("run or reaction", "")
    of_kind: str = fact("which of them", "")
    at: datetime | None = fact("counted at")
    gas: str = fact("gas", "not logged")
    discharge: str = fact("discharge", "not logged")
    stream: str = fact("stream", "into bottle")
    stopped: bool = fact("stopped", False)
    counting: bool = fact("on-time runs", False)
    on_time: Estimate | None = quantity(Kind.TIME, "s", "on-time", stem="on_time")
    gap: float | None = quantity(
        Kind.TIME, "s", "of this across a restart, by the wall clock", stem="gap", exact=True
    )
    planned: float | None = quantity(Kind.TIME, "s", "planned on-time", stem="planned", exact=True)
    over: float | None = quantity(Kind.TIME, "s", "beyond the plan", stem="over", exact=True)
    rate: Estimate | None = quantity(Kind.AMOUNT_RATE, "mmol/h", "output", stem="rate")
    pace: Estimate | None = quantity(
        Kind.AMOUNT_RATE, "mmol/min", "ozone taken up, or else sent in, per on-time", stem="pace"
    )
    dosed: Estimate | None = quantity(Kind.AMOUNT, "mmol", "ozone sent in", stem="dosed")
    taken_up: Estimate | None = quantity(Kind.AMOUNT, "mmol", "ozone taken up", stem="taken_up")
    wanted: Estimate | None = quantity(Kind.AMOUNT, "mmol", "ozone wanted", stem="wanted")
    remaining: Estimate | None = quantity(Kind.AMOUNT, "mmol", "remaining", stem="remaining")
    time_left: Estimate | None = quantity(Kind.TIME, "min", "on-time left", stem="time_left")
    run_on_left: float | None = quantity(
        Kind.TIME, "s", "gas still to run on", stem="run_on_left", exact=True
    )
    marks: tuple[MarkRow, ...] = listing("marks")
    signs: tuple[SignRow, ...] = listing("signs of the end point, simulated")
    events: tuple[EventRow, ...] = listing("events")
