"""What could be measured next: on-time, start, discharge, iodide, acid, guard bottle, flow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import inf
from typing import Literal

import numpy as np

from ozonewright.questions.drift.series import Array, SeriesRun, Setup, Start
from ozonewright.references.priors import prior

Change = Literal["", "iodide", "acid", "iodide and acid", "guard", "flow"]
SHORT = 30.0
"""Of a diverted run: the shortest that two hands time well (common practice). [s]"""
SETTLED = 3.0
"""Time constants of rest, or of venting to the tail bottle, before a run (common practice)."""
MORE = 3.0
"""Iodide or acid over the usual, where more of it is tried."""
SLOWER = 0.5
LONGER = 2.0
REPEATS = 6
"""On-times that are worth running again, each by itself."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """One further run."""

    on_time: float
    start: Start = "cold"
    discharge: bool = True
    change: Change = ""
    repeat: bool = False
    """Of an on-time that was run before."""

    @property
    def seconds(self) -> float:
        """Return how long it takes, titration left out: rest or warming up, then the run."""
        wait = SETTLED * prior("SETTLING").centre.value if self.discharge else 0.0
        return self.on_time + wait


def candidates(runs: Sequence[SeriesRun]) -> tuple[Candidate, ...]:
    """Return everything that is worth asking for; each once."""
    return tuple(dict.fromkeys(_all(runs)))


def _all(runs: Sequence[SeriesRun]) -> Iterator[Candidate]:
    done = sorted({run.on_time for run in runs if run.discharge_on})
    shortest, middle, longest = done[0], done[len(done) // 2], done[-1]
    for on_time in (shortest, middle, longest):
        yield Candidate(on_time, discharge=False)
    times = [max(SHORT, 0.5 * shortest), shortest, middle, longest, 1.5 * longest, LONGER * longest]
    for on_time in dict.fromkeys([*times, *done[:REPEATS]]):
        yield Candidate(on_time, repeat=on_time in done)
    for on_time in times:
        yield Candidate(on_time, "warm")
    for on_time in (SHORT, 2.0 * SHORT, shortest, middle, longest):
        yield Candidate(on_time, "diverted")
    for change in ("iodide", "acid", "guard", "flow"):
        for on_time in (shortest, middle, longest, LONGER * longest):
            yield Candidate(on_time, change=change)
    for on_time in (longest, LONGER * longest):
        yield Candidate(on_time, change="iodide and acid")
    for on_time in (middle, longest):
        yield Candidate(on_time, "warm", change="guard")
    for on_time in (shortest, longest):
        yield Candidate(on_time, "diverted", change="guard")
        yield Candidate(on_time, "diverted", change="flow")


def setup_of_candidates(setup: Setup, wanted: Sequence[Candidate]) -> Setup:
    """Return what would be set in each: like the usual run, but for what the candidate says."""
    usual = setup.usual
    ones = np.ones(len(wanted))

    def column(name: str, change: Change, times: float) -> Array:
        factor = np.array([times if change in one.change.split(" and ") else 1.0 for one in wanted])
        return np.asarray(getattr(setup, name)[usual] * factor)

    guard = np.array([float(one.change == "guard") for one in wanted])
    bottles = ones * setup.bottles[usual]
    return replace(
        setup,
        on_time=np.array([one.on_time for one in wanted]),
        u_on_time=ones * prior("TIMING_USUAL").centre.value,
        discharge=np.array([float(one.discharge) for one in wanted]),
        diverted=np.array([float(one.start == "diverted") for one in wanted]),
        cold=np.array([float(one.start == "cold") for one in wanted]),
        rest=ones * inf,
        place=ones * len(setup),
        flow=column("flow", "flow", SLOWER),
        iodide=column("iodide", "iodide", MORE),
        loss=column("loss", "iodide", 1.0 / MORE),
        acid=column("acid", "acid", MORE),
        bottles=np.where(guard > setup.guarded[usual], bottles + 1.0, bottles),
        guarded=np.maximum(guard, setup.guarded[usual]),
        usual=0,
    )
