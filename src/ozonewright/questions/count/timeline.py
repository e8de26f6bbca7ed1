"""Events on one axis of time that never runs backwards, whatever the wall clock did."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ozonewright.records.event import Event, Moment
from ozonewright.references.limits import limit
from ozonewright.results import Note


@dataclass(frozen=True, slots=True)
class Placed:
    """An event, or the present, on the axis."""

    time: float
    """Seconds on the axis."""
    event: Event | None
    """None for the present."""
    moment: Moment


@dataclass(frozen=True, slots=True)
class Timeline:
    """Events up to the present in the order of time."""

    placed: tuple[Placed, ...]
    """The last one is the present."""
    ahead: tuple[Event, ...]
    """Events that lie in the future by the clocks; they count once their time has come."""
    notes: tuple[Note, ...]


def timeline(events: Sequence[Event], now: Moment) -> Timeline:
    """Place events, which stand in the order of their arrival, and the present on one axis.

    Within one boot of the computer the monotonic clock counts. Boots, and events of which only a
    time of day is known, are joined by the wall clock; where that ran backwards between two boots,
    the later one is moved to begin with the last event of the earlier one.
    """
    moments = [*(event.at for event in events), now]
    zeros, notes = _zeros(moments)
    items = [
        Placed(_time(moment, zeros), event, moment)
        for event, moment in zip([*events, None], moments, strict=True)
    ]
    present = items.pop()
    items.sort(key=lambda one: one.time)
    passed = [one for one in items if one.time <= present.time]
    ahead = tuple(one.event for one in items[len(passed) :] if one.event)
    found = [*_steps(moments), *notes]
    if ahead:
        found.append(Note("count-ahead", values={"events": tuple(one.what for one in ahead)}))
    return Timeline((*passed, present), ahead, tuple(found))


def _time(moment: Moment, zeros: Mapping[str, float]) -> float:
    if moment.boot is None or moment.steady is None:
        return moment.wall.timestamp()
    return zeros[moment.boot] + moment.steady


def _zeros(moments: Sequence[Moment]) -> tuple[dict[str, float], list[Note]]:
    """Return where on the axis the monotonic clock of each boot is zero."""
    first: dict[str, int] = {}
    last: dict[str, int] = {}
    zeros: dict[str, float] = {}
    for place, moment in enumerate(moments):
        if moment.boot is not None and moment.steady is not None:
            first.setdefault(moment.boot, place)
            last[moment.boot] = place
            # The latest reading counts: a clock that was wrong has been set by then.
            zeros[moment.boot] = moment.wall.timestamp() - moment.steady
    notes = []
    for boot in sorted(first, key=lambda boot: first[boot]):
        before = [one for one in first if last[one] < first[boot]]
        ended = [_reach(one, moments, zeros)[1] for one in before]
        began = _reach(boot, moments, zeros)[0]
        if ended and began < max(ended):
            notes.append(Note("count-restart-back", values={"by": max(ended) - began}))
            zeros[boot] = max(ended)
    return zeros, notes


def _reach(boot: str, moments: Sequence[Moment], zeros: Mapping[str, float]) -> tuple[float, float]:
    times = [_time(moment, zeros) for moment in moments if moment.boot == boot]
    return min(times), max(times)


def _steps(moments: Sequence[Moment]) -> Iterator[Note]:
    """Yield each time that the wall clock was set while the computer ran."""
    allowed = limit("CLOCK_STEP").value
    known = [one for one in moments if one.boot is not None and one.steady is not None]
    for before, after in pairwise(known):
        if before.boot != after.boot or before.steady is None or after.steady is None:
            continue
        passed = after.steady - before.steady
        step = after.wall.timestamp() - before.wall.timestamp() - passed
        if abs(step) > allowed:
            yield Note("count-clock-set", values={"by": step, "after": before.wall})
