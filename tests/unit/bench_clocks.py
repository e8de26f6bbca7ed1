"""A made-up bench: true time runs, clocks are set, computers restart, presses arrive late."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from ozonewright.records.event import Act, Event, Moment

START = datetime(2026, 5, 9, 11, 0, tzinfo=UTC)


@dataclass
class Bench:
    """What truly happens, in whole seconds, and what the clocks say of it."""

    true: int = 0
    wall_off: int = 0
    """Seconds that the wall clock is wrong by."""
    boots: int = 0
    booted: int = 0
    events: list[Event] = field(default_factory=list)
    pressed: list[tuple[int, Act]] = field(default_factory=list)
    kept: list[Event] = field(default_factory=list)
    """Presses waiting on the page."""

    def wait(self, seconds: int) -> None:
        self.true += seconds

    def set_clock(self, by: int) -> None:
        self.wall_off += by

    def restart(self, seconds: int) -> None:
        self.true += seconds
        self.boots += 1
        self.booted = self.true

    def moment(self, ago: int = 0) -> Moment:
        wall = START + timedelta(seconds=self.true + self.wall_off - ago)
        steady = self.true - self.booted - ago
        if steady < 0:
            return Moment(wall)
        return Moment(wall, float(steady), f"boot {self.boots}")

    def press(self, act: Act) -> None:
        self.pressed.append((self.true, act))
        self.events.append(Event(f"e{len(self.pressed)}", act, self.moment()))

    def press_offline(self, act: Act) -> tuple[int, Act]:
        self.pressed.append((self.true, act))
        return self.pressed[-1]

    def arrives(self, press: tuple[int, Act]) -> None:
        ago = self.true - press[0]
        self.events.append(Event(f"l{len(self.events)}", press[1], self.moment(ago), float(ago)))

    def truth(self) -> int:
        """Walk through every second: gas on, discharge on, not diverted."""
        gas = discharge = diverted = False
        seconds = 0
        acts = sorted(self.pressed, key=lambda one: one[0])
        for now in range(self.true):
            while acts and acts[0][0] <= now:
                act = acts.pop(0)[1]
                gas = {"gas on": True, "gas off": False}.get(act, gas)
                on = {"discharge on": True, "discharge off": False, "stop": False}
                discharge = on.get(act, discharge)
                diverted = {"divert": True, "into bottle": False}.get(act, diverted)
            seconds += gas and discharge and not diverted
        return seconds
