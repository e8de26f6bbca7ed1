"""The runs of one setting as arrays: what was set, what was read; SI, ozone in mol."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, fields, replace
from math import inf, nan
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Truth = NDArray[np.bool_]
Places = NDArray[np.int64]
Start = Literal["cold", "warm", "diverted"]


@dataclass(frozen=True, slots=True)
class SeriesRun:
    """One run as drift needs it."""

    label: str
    on_time: float
    ozone: float
    """Read, reagent blank taken off, field blank not. [mol]"""
    u_ozone: float
    u_on_time: float = 0.0
    discharge_on: bool = True
    start: Start | None = None
    rest: float | None = None
    """Since the run before. [s]"""
    guard: float | None = None
    """Of `ozone`, what the last bottle read. [mol]"""
    u_guard: float = 0.0
    bottles: int = 1
    flow: float | None = None
    """Through the bottles. [m3/s]"""
    iodide: float | None = None
    """In the first bottle. [mol]"""
    iodide_times: float = 1.0
    """Iodide over the usual, where it is not stated."""
    acid_times: float = 1.0
    """Acid over the usual, where it is not stated."""
    volume: float | None = None
    """Liquid of the first bottle. [m3]"""
    protons: float | None = None
    """Acid of one bottle. [mol]"""
    guessed: bool = True
    """Its uncertainty was read off the digits or not given."""


@dataclass(frozen=True, slots=True)
class Known:
    """A number known from elsewhere, with its standard uncertainty."""

    value: float
    u: float


@dataclass(frozen=True, slots=True)
class Rig:
    """What is known of the set-up besides the runs."""

    hold_up: float | None = None
    """Gas held between tube and liquid, as seconds of flow. [s]"""
    titrant: float | None = None
    """Thiosulfate that the next run will be titrated with. [mol/m3]"""
    temperature: float | None = None
    """Of the liquid. [K]"""
    settling: Known | None = None
    """Time constant of the tube's temperature. [s]"""
    excess: Known | None = None
    """Output of the cold generator over the settled one, less 1. [1]"""


@dataclass(frozen=True, slots=True)
class Base:
    """The set-up of the first run, and the middle on-time."""

    on_time: float
    start: float
    flow: float
    iodide: float
    acid: float


def start_code(cold: Array, diverted: Array) -> Array:
    """Return a number for each kind of start."""
    return np.asarray(np.nan_to_num(cold, nan=-1.0) + 2.0 * diverted)


@dataclass(frozen=True, slots=True)
class Setup:
    """What was set in each run; every array of shape (n,)."""

    on_time: Array
    u_on_time: Array
    discharge: Array
    diverted: Array
    cold: Array
    """Coldness at the start where it is known: 1 cold, 0 warm or diverted; nan where not."""
    rest: Array
    """Before the run; nan where unknown. [s]"""
    place: Array
    flow: Array
    """Over the usual flow. [1]"""
    iodide: Array
    """What the trap holds before a factor: half its iodide, or 1 where unknown. [mol or 1]"""
    loss: Array
    """Iodine carried off before a factor, or 1 where unknown. [1/s or 1]"""
    acid: Array
    """Ozone whose iodate the acid brings back before a factor, or 1. [mol or 1]"""
    bottles: Array
    guarded: Array
    """Whether the last bottle was read by itself."""
    usual: int
    """The run with the middle on-time."""
    base: Base
    """What the first run had, to say what changed since."""
    first: Places = field(init=False)
    """One run of each set-up; order and rest do not count."""
    like: Places = field(init=False)
    """For each run, the place among `first` of the one that was set like it."""

    def __post_init__(self) -> None:
        """Find the runs that were set alike."""
        settings = [
            getattr(self, item.name)
            for item in fields(self)
            if item.init and item.name not in ("usual", "base", "place", "rest")
        ]
        rows = np.nan_to_num(np.stack(settings, axis=1), nan=-1.0)
        _, first, like = np.unique(rows, axis=0, return_index=True, return_inverse=True)
        object.__setattr__(self, "first", first)
        object.__setattr__(self, "like", like.ravel())

    def __len__(self) -> int:
        return len(self.on_time)

    @property
    def made(self) -> list[int]:
        """The runs with the discharge on."""
        return [int(place) for place in np.flatnonzero(self.discharge > 0.0)]

    @property
    def usual_runs(self) -> list[int]:
        """The runs from the middle on-time up: what moves only shorter ones hardly matters."""
        least = self.on_time[self.usual]
        return [place for place in self.made if self.on_time[place] >= least]

    def take(self, columns: Sequence[int] | Places) -> Setup:
        """Return some of the runs."""
        chosen = {
            item.name: getattr(self, item.name)[list(columns)]
            for item in fields(self)
            if item.init and item.name not in ("usual", "base")
        }
        return replace(self, **chosen, usual=0)


@dataclass(frozen=True, slots=True)
class Readings:
    """What was read in each run; shape (n,). [mol]"""

    main: Array
    """All bottles but a guard bottle that was read by itself."""
    u_main: Array
    guard: Array
    """nan where none was read by itself."""
    u_guard: Array

    @property
    def guarded(self) -> Truth:
        """Where a guard bottle was read."""
        return np.isfinite(self.guard)

    def take(self, columns: Sequence[int]) -> Readings:
        """Return some of the runs."""
        chosen = list(columns)
        return Readings(
            self.main[chosen], self.u_main[chosen], self.guard[chosen], self.u_guard[chosen]
        )

    @property
    def total(self) -> Array:
        """All bottles."""
        return self.main + np.where(self.guarded, self.guard, 0.0)


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of the series, for the causes to choose their parameters by."""

    iodide: bool
    loss: bool
    acid: bool
    hold_up: float | None
    guard: bool
    blank: bool
    """A run with the discharge off is among them."""
    on_runs: int
    order: bool
    guessed: bool
    warm_start: bool
    """Some run started warm or diverted, so that all runs are not alike in this."""
    rests: bool
    kinds: tuple[str, ...]
    """What changed between runs, for a shift of unknown reason."""
    settling: Known | None = None
    excess: Known | None = None


def readings_of(runs: Sequence[SeriesRun]) -> Readings:
    """Return what was read, the guard bottle by itself where it was."""
    guard = np.array([nan if run.guard is None else run.guard for run in runs])
    has = np.isfinite(guard)
    total = np.array([run.ozone for run in runs])
    return Readings(
        main=total - np.where(has, guard, 0.0),
        u_main=np.array([run.u_ozone for run in runs]),
        guard=guard,
        u_guard=np.array([run.u_guard if run.guard is not None else inf for run in runs]),
    )


def usual_run(runs: Sequence[SeriesRun]) -> int:
    """Return the place of the run with the middle on-time, of those that were no special one."""
    made = [place for place, run in enumerate(runs) if run.discharge_on]
    plain = [place for place in made if runs[place].start != "diverted"] or made
    ordered = sorted(plain, key=lambda place: (runs[place].on_time, place))
    return ordered[(len(ordered) - 1) // 2]
