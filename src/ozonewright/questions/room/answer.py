"""From a room and a release to what people breathe, how soon, and what it takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf, isfinite

import numpy as np
from numpy.typing import NDArray

from ozonewright.physics import Real
from ozonewright.physics.hazards.room import (
    air_changes_needed,
    concentration_of_puff,
    mean_concentration,
    room_concentration,
    steady_concentration,
    time_to_fall,
    time_to_limit,
)
from ozonewright.questions.room.air import Air, best, drawn, limit_of, per_fraction
from ozonewright.questions.room.gaps import unknowns
from ozonewright.questions.room.notes import next_steps, notes, working
from ozonewright.questions.room.release import Release
from ozonewright.questions.room.result import CaseRow, CourseRow, RoomAnswer
from ozonewright.records.room import Room
from ozonewright.uncertain import Estimate
from ozonewright.uncertain.positive import DRAWS, estimate_of, positive_draws
from ozonewright.units import Kind, number, size

MINUTE = size(Kind.TIME, "min")
TIMES = tuple(minutes * MINUTE for minutes in (1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0))
TAIL = 0.025
"""One room of forty."""


@dataclass(frozen=True)
class Figures:
    """What a release does to a room: floats, or arrays of draws."""

    start: Real
    """Just after a puff, else zero. [kg/m3]"""
    steady: Real | None
    """None where nothing takes the ozone away."""
    to_limit: Real | None = None
    re_entry: Real | None = None
    needed: Real | None = None


def figures(
    air: Air, rate: Real, mass: Real, limit: float | None, lasts: float | None = None
) -> Figures:
    """Return the figures of a release; `lasts` is how long it goes on before people leave it."""
    start = concentration_of_puff(mass=mass, volume=air.volume)
    lossless = bool(np.any(np.equal(air.loss, 0.0)))
    steady = (
        None
        if lossless and bool(np.any(np.greater(rate, 0.0)))
        else start * 0.0
        if lossless
        else steady_concentration(release=rate, volume=air.volume, loss=air.loss)
    )
    if limit is None:
        return Figures(start, steady)
    highest = _highest(air, rate, start, steady, lasts)
    return Figures(
        start=start,
        steady=steady,
        to_limit=time_to_limit(
            limit=limit, release=rate, volume=air.volume, loss=air.loss, start=start
        ),
        re_entry=None
        if highest is None
        else time_to_fall(start=highest, limit=limit, loss=air.loss),
        needed=air_changes_needed(
            release=rate, volume=air.volume, limit=limit, removal=air.removal
        ),
    )


def _highest(
    air: Air, rate: Real, start: Real, steady: Real | None, lasts: float | None
) -> Real | None:
    """Return the concentration when the release ends: a stated time, else the steady state."""
    if lasts is not None:
        return room_concentration(
            time=lasts, release=rate, volume=air.volume, loss=air.loss, start=start
        )
    if steady is None:
        return None
    return np.maximum(steady, start)


def room_answer(
    room: Room,
    ways: Sequence[Release],
    *,
    lasts: float | None = None,
    draws: int = DRAWS,
    seed: int = 0,
) -> RoomAnswer:
    """Return what the first of the releases does to the room, with a row for each of them."""
    first, limit, unit = ways[0], limit_of(room), per_fraction(room)
    air = best(room)
    rate, mass = _values(first)
    found = figures(air, rate, mass, limit, lasts)
    many, parts = drawn(room, draws=draws, seed=seed)
    rates, masses = _drawn(first, draws, seed)
    parts = parts | {"release": rates, "puff": masses}
    spread = figures(many, rates, masses, limit, lasts)
    steady = _estimate(found.steady, spread.steady, parts, draws)
    needed = _estimate(found.needed, spread.needed, parts, draws)
    answer = RoomAnswer(
        room=room.label,
        case=first.name,
        release=rate if first.rate else None,
        puff=mass if first.mass else None,
        volume=float(air.volume),
        loss=float(air.loss),
        limit_name=room.limit.name if room.limit else None,
        limit=limit / unit if limit is not None else None,
        steady=steady,
        steady_fraction=_scaled(steady, 1.0 / unit),
        steady_without_removal=_without_removal(air, rate, unit),
        peak=float(found.start) / unit if first.mass else None,
        mean=_mean(room, air, rate, unit) if first.rate else None,
        minutes_to_limit=_minutes(found.to_limit),
        earliest=_quantile(spread.to_limit, TAIL),
        re_entry=_known(found.re_entry),
        re_entry_latest=_quantile(spread.re_entry, 1.0 - TAIL),
        air_changes_needed=needed,
        fan_needed=needed.value * float(air.volume) if needed else None,
        rooms_over=_share_over(spread, limit),
        cases=tuple(_row(way, air, limit, unit, lasts) for way in ways),
        course=tuple(_course(air, many, (rate, mass), (rates, masses), unit)),
    )
    return _told(answer, room, air)


def _told(answer: RoomAnswer, room: Room, air: Air) -> RoomAnswer:
    """Return the answer with its words' codes, its unknowns and its sources."""
    fields = {name: getattr(answer, name) for name in answer.__dataclass_fields__}
    fields |= {
        "notes": tuple(notes(answer, room)),
        "working": tuple(working(answer, room, air)),
        "next": tuple(next_steps(answer, room)),
        "unknowns": unknowns(room),
        "sources": tuple(_sources(room)),
        "methods": (
            "well-mixed box",
            "Monte Carlo; quantities that can't be negative are drawn log-normal",
        ),
    }
    return RoomAnswer(**fields)


def _sources(room: Room) -> Iterator[str]:
    yield "lee_1999"
    if room.limit and room.limit.datum and room.limit.datum.source:
        yield room.limit.datum.source
    if room.temperature is None or room.pressure is None:
        yield "niosh_2007"


def _values(way: Release) -> tuple[float, float]:
    return way.rate.value if way.rate else 0.0, way.mass.value if way.mass else 0.0


def _drawn(way: Release, draws: int, seed: int) -> tuple[Real, Real]:
    return (
        positive_draws(way.rate, draws=draws, seed=seed) if way.rate else 0.0,
        positive_draws(way.mass, draws=draws, seed=seed) if way.mass else 0.0,
    )


def _estimate(
    value: Real | None,
    spread: Real | None,
    parts: dict[str, NDArray[np.float64] | float],
    draws: int,
) -> Estimate | None:
    if value is None or spread is None:
        return None
    return estimate_of(float(value), np.broadcast_to(spread, (draws,)), parts)


def _scaled(found: Estimate | None, factor: float) -> Estimate | None:
    if found is None:
        return None
    low, high = found.interval
    return Estimate(
        value=found.value * factor,
        u=found.u * factor,
        dof=found.dof,
        interval=(low * factor, high * factor),
        k=found.k,
        method=found.method,
        budget=found.budget,
        shift=found.shift * factor,
    )


def _without_removal(air: Air, rate: float, unit: float) -> float | None:
    if float(air.fresh) == 0.0:
        return None
    steady = steady_concentration(release=rate, volume=air.volume, loss=air.fresh)
    return float(steady) / unit


def _mean(room: Room, air: Air, rate: float, unit: float) -> float | None:
    """Return the mean over the time that the limit itself counts."""
    average = room.limit.average if room.limit else None
    if average is None or float(air.loss) == 0.0:
        return None
    mean = mean_concentration(time=average, release=rate, volume=air.volume, loss=air.loss)
    return float(mean) / unit


def _known(time: Real | None) -> float | None:
    return None if time is None or not isfinite(float(time)) else float(time)


def _minutes(time: Real | None) -> float | None:
    known = _known(time)
    return None if known is None else number(known, Kind.TIME, "min")


def _quantile(times: Real | None, share: float) -> float | None:
    """Return a quantile of times, some of which may be infinite."""
    if times is None:
        return None
    found = float(np.quantile(times, share, method="lower"))
    return found if found < inf else None


def _share_over(spread: Figures, limit: float | None) -> float | None:
    if limit is None or spread.to_limit is None:
        return None
    return float(np.mean(np.isfinite(spread.to_limit)))


def _row(way: Release, air: Air, limit: float | None, unit: float, lasts: float | None) -> CaseRow:
    rate, mass = _values(way)
    found = figures(air, rate, mass, limit, lasts)
    steady = None if found.steady is None else float(found.steady) / unit
    return CaseRow(
        case=way.name,
        release=rate if way.rate else None,
        puff=mass if way.mass else None,
        peak=float(found.start) / unit if way.mass else None,
        steady=steady,
        to_limit=_known(found.to_limit),
        re_entry=_known(found.re_entry),
        air_changes_needed=None if found.needed is None else float(found.needed),
    )


def _course(
    air: Air,
    many: Air,
    value: tuple[float, float],
    drawn_values: tuple[Real, Real],
    unit: float,
) -> Iterator[CourseRow]:
    for time in TIMES:
        one, all_ = (
            room_concentration(
                time=time,
                release=rate,
                volume=each.volume,
                loss=each.loss,
                start=concentration_of_puff(mass=mass, volume=each.volume),
            )
            for each, (rate, mass) in ((air, value), (many, drawn_values))
        )
        yield CourseRow(
            time=time,
            ozone=float(one) / unit,
            high=float(np.quantile(all_, 1.0 - TAIL)) / unit,
        )
