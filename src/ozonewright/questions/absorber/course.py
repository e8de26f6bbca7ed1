"""The bottles minute by minute, until what takes the ozone is used up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ozonewright.physics.liquid.course import Course, course_of_train, time_to_level
from ozonewright.physics.liquid.swarm import Column, filling_time
from ozonewright.questions.absorber.draws import Array
from ozonewright.questions.absorber.model import Stream
from ozonewright.questions.absorber.passing import Train, as_array
from ozonewright.questions.absorber.result import CourseRow
from ozonewright.references.constants import M_O3
from ozonewright.uncertain import Estimate

STEPS = 24
"""For each bottle."""
SHOWN = 24
"""Moments of the answer."""
BEYOND = 1.6
"""Times what the reactants of all bottles last if they take all the ozone."""
FULL = 3.0
"""Filling times of a liquid without a reactant that are followed."""
LONGER = 2.0
"""Times that again where a reactant is not used up."""
GONE = 0.01
"""Share of a reactant that counts as used up."""
THROUGH = 0.05
"""Share of the ozone behind all bottles that counts as breaking through."""


@dataclass(frozen=True, slots=True)
class Worn:
    """What the course of a train says."""

    lasts: tuple[Estimate | None, ...]
    """Until the reactant of each bottle is used up; none where there is none, or it never is."""
    breaks: Estimate | None
    """Until ozone breaks through; none where it passes from the start, or never."""
    rows: tuple[CourseRow, ...]


def worn(whole: Train, gas: Stream, columns: list[Column]) -> Worn:
    """Return the course of the bottles from fresh liquid on."""
    reacts = [bottle.holds != "nothing" for bottle in whole.bottles]
    horizon = _horizon(gas, columns, reacts)
    for _ in range(3):
        times = np.linspace(0.0, horizon, STEPS * len(columns) + 1)
        course = course_of_train(columns=columns, ozone=gas.ozone, times=times)
        left = [course.reactant[:, n] / np.maximum(course.reactant[0, n], 1e-30) for n in
                range(len(columns))]  # fmt: skip
        if all(left[n][-1, 0] <= GONE for n, reacting in enumerate(reacts) if reacting):
            break
        horizon *= LONGER
    lasts = tuple(
        _when(whole, times, left[n], GONE) if reacting else None
        for n, reacting in enumerate(reacts)
    )
    kept = 1.0 - course.passing.prod(axis=1)
    breaks = None
    if any(reacts) and kept[0, 0] > 1.0 - THROUGH:
        breaks = _when(whole, times, kept, 1.0 - THROUGH)
    return Worn(lasts, breaks, tuple(_rows(whole, gas, course, reacts)))


def _horizon(gas: Stream, columns: list[Column], reacts: list[bool]) -> float:
    first = float(as_array(gas.ozone)[0])
    total = 0.0
    for column, reacting in zip(columns, reacts, strict=True):
        if reacting:
            held = as_array(column.reactant * column.volume / column.per_ozone)[0]
            total += BEYOND * float(held) / first
        else:
            total += FULL * float(as_array(filling_time(column=column, gas=first / column.flow))[0])
    return total


def _when(whole: Train, times: Array, values: Array, level: float) -> Estimate | None:
    if values[-1, 0] > level:
        return None
    return whole.drawn.estimate(time_to_level(times=times, values=values, level=level))


def _rows(whole: Train, gas: Stream, course: Course, reacts: list[bool]) -> Iterator[CourseRow]:
    step = max((len(course.times) - 1) // SHOWN, 1)
    start = course.reactant[0, :, 0]
    sent = gas.ozone * M_O3
    passed = course.passing.cumprod(axis=1)
    for place in range(0, len(course.times), step):
        for n, bottle in enumerate(whole.bottles):
            slip = as_array(sent * passed[place, n])
            low, high = np.quantile(slip, (0.025, 0.975))
            yield CourseRow(
                time=float(course.times[place]),
                bottle=bottle.name,
                left=float(course.reactant[place, n, 0] / start[n]) if reacts[n] else None,
                dissolved=float(course.dissolved[place, n, 0]) * M_O3,
                efficiency=1.0 - float(course.passing[place, n, 0]),
                slip=float(slip[0]),
                slip_low=float(low),
                slip_high=float(high),
            )
