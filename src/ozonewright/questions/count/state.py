"""What is switched on after each event, and how long the ozone went where it was wanted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ozonewright.questions.count.timeline import Placed, Timeline
from ozonewright.records.event import Act


@dataclass(frozen=True, slots=True)
class State:
    """What the log says is switched; None where it says nothing."""

    gas: bool | None = None
    discharge: bool | None = None
    diverted: bool = False
    stopped: bool = False

    @property
    def counting(self) -> bool:
        """Whether this is on-time: discharge on and gas through the bottles."""
        return self.gas is True and self.discharge is True and not self.diverted

    def after(self, act: Act) -> State:
        """Return the state after an event."""
        if act in ("gas on", "gas off"):
            return replace(self, gas=act == "gas on")
        if act == "discharge on":
            return replace(self, discharge=True, stopped=False)
        if act == "discharge off":
            return replace(self, discharge=False)
        if act == "stop":
            return replace(self, discharge=False, stopped=True)
        return replace(self, diverted=act == "divert")


@dataclass(frozen=True, slots=True)
class Period:
    """A stretch of the axis that begins with an event and ends with the next, or now."""

    begin: Placed
    end: Placed
    state: State

    @property
    def length(self) -> float:
        """Seconds."""
        return self.end.time - self.begin.time


def periods(line: Timeline) -> tuple[Period, ...]:
    """Return the stretches between events, each with what was switched on in it."""
    state, found = State(), []
    for one, other in pairwise(line.placed):
        assert one.event is not None
        state = state.after(one.event.what)
        found.append(Period(one, other, state))
    return tuple(found)


def last_state(found: Sequence[Period]) -> State:
    """Return what is switched on now."""
    return found[-1].state if found else State()


def on_time(found: Sequence[Period]) -> float:
    """Return the seconds of on-time so far."""
    return sum(one.length for one in found if one.state.counting)


def presses(found: Sequence[Period]) -> int:
    """Return how many presses began or ended on-time."""
    counting = [False, *(one.state.counting for one in found)]
    return sum(one != other for one, other in pairwise(counting))


def gaps(found: Sequence[Period]) -> Iterator[Period]:
    """Yield the stretches of on-time in which the computer was restarted.

    An event of which only a time of day is known belongs to no boot; a restart then lies somewhere
    between the events around it, and all of these stretches count as the gap.
    """
    ahead: list[str | None] = [None] * len(found)
    following: str | None = None
    for place in range(len(found) - 1, -1, -1):
        following = found[place].end.moment.boot or following
        ahead[place] = following
    before: str | None = None
    for one, after in zip(found, ahead, strict=True):
        before = one.begin.moment.boot or before
        if one.state.counting and before and after and before != after:
            yield one


def since_discharge(found: Sequence[Period]) -> float | None:
    """Return seconds of gas since the discharge went off, or None if it is on or never was."""
    if not found or found[-1].state.discharge is not False:
        return None
    passed, was_on = 0.0, False
    for one in found:
        was_on = was_on or one.state.discharge is True
        if one.state.discharge is True:
            passed = 0.0
        elif one.state.gas:
            passed += one.length
    return passed if was_on else None
