"""Bottles in a row minute by minute: liquids fill, what takes the ozone is used up."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.liquid.batch import Array
from ozonewright.physics.liquid.swarm import FAINT, Column, share_left

SLICES = 8
"""Of a rise: what passes is within half a per cent of all. [1]"""
SHORT = 1e-12
"""Exponent below which a mean over a step is that at its beginning. [1]"""


@dataclass(frozen=True, slots=True)
class Course:
    """What happened, by times, bottles and draws."""

    times: Array
    reactant: Array
    """Left in the liquid. [mol/m3]"""
    dissolved: Array
    """Ozone in the liquid. [mol/m3]"""
    taken: Array
    """Ozone taken up since the start. [mol]"""
    passing: Array
    """Share that passed each bottle of what came in to it, over the step that ends there. [1]"""


@dataclass(frozen=True, slots=True)
class _Bottle:
    """One bottle over a step: how it takes ozone up, and what it holds."""

    empty: Real
    """Taken up by liquid without ozone. [mol/s]"""
    slope: Real
    """By how much less for each concentration of ozone there. [m3/s]"""
    use: Real
    """How fast dissolved ozone is used. [1/s]"""
    volume: Real


def course_of_train(*, columns: list[Column], ozone: Real, times: Array) -> Course:
    """Course of bottles one behind the other, from fresh liquid on.

    Parameters
    ----------
    columns : list of Column
        The bottles in flow order, as they are at the start. [-]
    ozone : float
        Sent into the first. [mol/s]
    times : array
        Rising from 0. [s]

    Returns
    -------
    course : Course
        By times, bottles and draws. [-]

    Raises
    ------
    None

    Valid
    -----
    Mixed liquids; gas between the bottles left out; steps that use up less than a tenth of a
    reactant. Ozone that goes by itself left out.

    Source
    ------
    decoursey_1974
    geometry, balance of the bulk

    Notes
    -----
    Over a step dc/dt = (U0 - s c)/V - k cB c is solved exactly, with cB at the middle of the step;
    where cB ends in it, the step is cut there. What enters is dissolved or used, to rounding.
    """
    none = 0.0 * (ozone + sum(one.reactant + one.kl for one in columns))
    start = [np.asarray(one.reactant + none, dtype=float) for one in columns]
    reactant, dissolved = list(start), [0.0 * one for one in start]
    rate, taken = [0.0 * one for one in start], [0.0 * one for one in start]
    passing = [0.0 * one for one in start]
    kept = [tuple(np.stack(part) for part in (reactant, dissolved, taken, passing))]
    for h in np.diff(times):
        arriving: Real = ozone
        for place, column in enumerate(columns):
            before = reactant[place]
            middle = np.maximum(before - 0.5 * h * rate[place], 0.0)
            found = _step(column, arriving, before, middle, dissolved[place], h)
            reactant[place], dissolved[place], more = found
            rate[place] = (before - reactant[place]) / h
            taken[place] = taken[place] + more
            passing[place] = 1.0 - more / (arriving * h + FAINT)
            arriving = arriving - more / h
        kept.append(tuple(np.stack(part) for part in (reactant, dissolved, taken, passing)))
    columns_of = [np.stack(part) for part in zip(*kept, strict=True)]
    columns_of[3][0] = columns_of[3][1]
    return Course(np.asarray(times), *columns_of)


def time_to_level(*, times: Array, values: Array, level: Real) -> Array:
    """Time at which a course first comes down to a level.

    Parameters
    ----------
    times : array
        Rising. [s]
    values : array
        By times and draws. [1]
    level : float
        To come down to. [1]

    Returns
    -------
    time : array
        By draws; of a course that never gets there, the last time. [s]

    Raises
    ------
    None

    Valid
    -----
    Straight between the times.

    Source
    ------
    geometry
    """
    reached = values <= level
    place = np.where(reached.any(axis=0), reached.argmax(axis=0), len(times) - 1)
    before = np.maximum(place - 1, 0)
    draws = np.arange(values.shape[1])
    high, low = values[before, draws], values[place, draws]
    share = np.clip((high - level) / np.maximum(high - low, FAINT), 0.0, 1.0)
    return np.asarray(times[before] + share * (times[place] - times[before]))


def _step(
    column: Column, ozone: Real, reactant: Array, middle: Array, dissolved: Array, h: float
) -> tuple[Array, Array, Array]:
    """Return reactant and dissolved ozone after a step, and the ozone taken up in it."""
    reacting = _bottle(replace(column, reactant=middle), ozone)
    after, more = _filled(reacting, dissolved, h)
    used = column.per_ozone * (more / column.volume - after + dissolved)
    over = used > reactant
    if not np.any(over):
        return reactant - used, after, more
    until = np.where(over, h * reactant / np.maximum(used, FAINT), h)
    first, early = _filled(reacting, dissolved, until)
    # all that is left of the reactant meets ozone, the rest of which stays dissolved
    first = np.where(over, dissolved + early / column.volume - reactant / column.per_ozone, first)
    bare = _bottle(replace(column, reactant=0.0 * reactant), ozone)
    last, late = _filled(bare, first, h - until)
    left = np.where(over, 0.0, reactant - used)
    return left, np.where(over, last, after), np.where(over, early + late, more)


def _bottle(column: Column, ozone: Real) -> _Bottle:
    gas = ozone / column.flow
    full = column.partition * gas
    ends = np.stack([0.0 * full + 0.0 * column.reactant, full + 0.0 * column.reactant])
    lefts = share_left(column=column, gas=gas, dissolved=ends, slices=SLICES)
    empty, filled = np.asarray(ozone * (1.0 - lefts))
    return _Bottle(
        empty=empty,
        slope=(empty - filled) / (full + FAINT),
        use=column.rate_constant * column.reactant,
        volume=column.volume,
    )


def _filled(bottle: _Bottle, dissolved: Array, h: Real) -> tuple[Array, Array]:
    """Return the ozone dissolved after a time, and what was taken up meanwhile."""
    often = bottle.slope / bottle.volume + bottle.use
    end = bottle.empty / bottle.volume / (often + FAINT)
    x = often * h
    mean = end + (dissolved - end) * np.where(x > SHORT, -np.expm1(-x) / (x + FAINT), 1.0)
    after = end + (dissolved - end) * np.exp(-x)
    return np.asarray(after), np.asarray((bottle.empty - bottle.slope * mean) * h)
