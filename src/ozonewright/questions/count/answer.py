"""From events, output and uptake to what has been delivered and what comes next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Any

from ozonewright.physics import Real
from ozonewright.physics.generator.dose import amount_dosed, on_time_left
from ozonewright.questions.count.result import Count, EventRow, MarkRow
from ozonewright.questions.count.state import (
    Period,
    State,
    gaps,
    last_state,
    on_time,
    periods,
    presses,
    since_discharge,
)
from ozonewright.questions.count.timeline import Timeline, timeline
from ozonewright.records.event import Event, Moment
from ozonewright.records.sign import SignRow
from ozonewright.references.limits import limit
from ozonewright.results import Note
from ozonewright.uncertain import Measured, propagate
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Mark:
    """A point of on-time at which there is something to do."""

    name: str
    on_time: float
    """Seconds."""


@dataclass(frozen=True, slots=True)
class Subject:
    """The run or reaction that is counted, and what is known of it; SI."""

    of: str
    kind: str = ""
    output: Measured | None = None
    """Amount of ozone per time."""
    uptake: Measured | None = None
    """Share of the ozone that a reaction takes up."""
    wanted: Measured | None = None
    """Ozone that is to be taken up."""
    planned: float | None = None
    """On-time, in seconds."""
    marks: tuple[Mark, ...] = ()
    signs: tuple[SignRow, ...] = ()
    """Of the end point, by a simulated run."""
    sources: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    """What is wrong or doubtful with what is known of it."""


def count(events: Sequence[Event], now: Moment, subject: Subject) -> Count:
    """Return the count at the present; `events` stand in the order of their arrival."""
    line = timeline(events, now)
    found = periods(line)
    state = last_state(found)
    run = Measured(
        on_time(found),
        presses(found) ** 0.5 * limit("PRESS_DOUBT").value,
        "on-time, by presses",
        Kind.TIME,
        basis="common practice",
    )
    gap = sum(one.length for one in gaps(found))
    over = None if subject.planned is None else run.value - subject.planned
    run_on = _run_on(found, state)
    marks = tuple(_marks(subject, run.value))
    return Count(
        of=subject.of,
        of_kind=subject.kind,
        at=now.wall,
        gas=_said(state.gas),
        discharge=_said(state.discharge),
        stream="diverted" if state.diverted else "into bottle",
        stopped=state.stopped,
        counting=state.counting,
        on_time=propagate(lambda on_time: 1.0 * on_time, {"on_time": run}),
        gap=gap,
        planned=subject.planned,
        over=over,
        **_amounts(run, subject),
        run_on_left=run_on,
        marks=marks,
        signs=subject.signs,
        events=tuple(_rows(line, found)),
        notes=tuple(_notes(line, found, state, subject, run.value, gap)),
        next=tuple(_next(state, subject, marks, run_on)),
        unknowns=tuple(_unknowns(subject)),
        sources=subject.sources,
        methods=("on-time by the monotonic clock, across a restart by the wall clock",),
    )


def _said(value: bool | None) -> str:
    return "not logged" if value is None else "on" if value else "off"


def _amounts(run: Measured, subject: Subject) -> dict[str, Any]:
    """Return what can be told of the ozone; what is not known is left out."""
    if subject.output is None:
        return {}
    inputs = {"on_time": run, "rate": subject.output}
    if subject.uptake is not None:
        inputs["uptake"] = subject.uptake
        if subject.wanted is not None:
            inputs["wanted"] = subject.wanted
    return dict(propagate(_evaluate, inputs))


def _evaluate(**values: Real) -> dict[str, Real]:
    """Return the amounts that the inputs given allow."""
    rate, run = values["rate"], values["on_time"]
    uptake = values.get("uptake", 1.0)
    out = {
        "rate": 1.0 * rate,
        "pace": amount_dosed(rate=rate, on_time=1.0, uptake=uptake),
        "dosed": amount_dosed(rate=rate, on_time=run, uptake=1.0),
    }
    if "uptake" not in values:
        return out
    out["taken_up"] = amount_dosed(rate=rate, on_time=run, uptake=uptake)
    if "wanted" in values:
        out["wanted"] = 1.0 * values["wanted"]
        out["remaining"] = values["wanted"] - out["taken_up"]
        out["time_left"] = on_time_left(amount=out["remaining"], rate=rate, uptake=uptake)
    return out


def _marks(subject: Subject, run: float) -> Iterator[MarkRow]:
    for mark in sorted(subject.marks, key=lambda mark: mark.on_time):
        left = mark.on_time - run
        yield MarkRow(name=mark.name, on_time=mark.on_time, left=left, passed=left <= 0.0)


def _rows(line: Timeline, found: Sequence[Period]) -> Iterator[EventRow]:
    """Yield every event with the on-time at which it came."""
    so_far = accumulate((one.length * one.state.counting for one in found), initial=0.0)
    for one, run in zip(line.placed[:-1], so_far, strict=False):
        assert one.event is not None
        yield EventRow(
            id=one.event.id,
            what=one.event.what,
            when=one.event.at.wall,
            on_time=run,
            sent_after=one.event.sent_after or None,
        )


def _run_on(found: Sequence[Period], state: State) -> float | None:
    """Return how long the gas must still run on; None where nothing has to."""
    passed = since_discharge(found)
    if passed is None:
        return None
    left = limit("RUN_ON").value - passed
    return left if left > 0.0 else None


def _notes(
    line: Timeline,
    found: Sequence[Period],
    state: State,
    subject: Subject,
    run: float,
    gap: float,
) -> Iterator[Note]:
    yield from subject.notes
    yield from line.notes
    for one in gaps(found):
        values = {
            "length": one.length,
            "begin": one.begin.moment.wall,
            "end": one.end.moment.wall,
        }
        yield Note("count-gap", values=values)
    if state.discharge and not state.gas:
        yield Note("count-no-gas", "wrong", {"logged": state.gas is not None})
    if state.discharge is False and state.gas is False and _short_run_on(found):
        yield Note("count-run-on-short", values={"needed": limit("RUN_ON").value})
    late = [one.event.sent_after for one in line.placed if one.event and one.event.sent_after]
    if late:
        yield Note("count-sent-later", "advice", {"events": len(late), "longest": max(late)})
    if subject.marks and run > max(mark.on_time for mark in subject.marks):
        last = max(subject.marks, key=lambda mark: mark.on_time)
        values = {"mark": last.name, "by": run - last.on_time}
        yield Note("count-past", "wrong" if state.counting else "doubt", values)
    if found:
        yield Note("count-press-doubt", "advice", {"u": limit("PRESS_DOUBT").value})


def _short_run_on(found: Sequence[Period]) -> bool:
    passed = since_discharge(found)
    return passed is not None and passed < limit("RUN_ON").value


def _next(
    state: State, subject: Subject, marks: Sequence[MarkRow], run_on: float | None
) -> Iterator[Note]:
    if state.discharge and not state.gas:
        yield Note("count-log-gas", "advice")
        return
    coming = next((mark for mark in marks if not mark.passed), None)
    if state.discharge and marks and coming is None:
        yield Note("count-stop-now", "advice", {"mark": marks[-1].name})
    elif state.counting and coming:
        yield Note("count-mark-in", "advice", {"mark": coming.name, "left": coming.left})
    elif state.gas and state.discharge is not True and run_on is None and not state.stopped:
        yield Note("count-discharge", "advice")
    if run_on is not None and state.gas:
        yield Note("count-run-on", "advice", {"left": run_on})
    elif state.stopped and state.gas:
        yield Note("count-gas-off", "advice")
    elif state.gas is None:
        yield Note("count-begin", "advice")
    if subject.output is None:
        yield Note("count-no-output", "advice")
    elif subject.kind == "reaction" and subject.uptake is None:
        yield Note("count-no-uptake", "advice")


def _unknowns(subject: Subject) -> Iterator[str]:
    if subject.output is None:
        yield "output"
    if subject.kind == "reaction":
        yield from (name for name in ("uptake", "wanted") if getattr(subject, name) is None)
    if subject.planned is None:
        yield "planned on-time"
