"""Oxygen that collects in a room, or in a box described as one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ozonewright.physics.hazards.oxygen import (
    fresh_air_for_oxygen,
    oxygen_fraction,
    oxygen_steady,
    time_to_oxygen,
)
from ozonewright.questions.room.air import Air, best, drawn
from ozonewright.records.room import Room
from ozonewright.references.constants import X_O2_AIR
from ozonewright.references.hazards import hazard
from ozonewright.results import Note, Result, fact, quantity
from ozonewright.uncertain import Measured
from ozonewright.uncertain.positive import DRAWS, positive_draws
from ozonewright.units import Kind, number

TAIL = 0.025
"""One room of forty."""


@dataclass(frozen=True, slots=True)
class OxygenSupply:
    """Oxygen-rich gas that gets into the room."""

    flow: Measured
    """At the temperature and pressure of the room. [m3/s]"""
    share: Measured
    """Oxygen in it. [1]"""


@dataclass(frozen=True, kw_only=True)
class OxygenAnswer(Result):
    """How much oxygen collects, how soon, and what keeps it down."""

    room: str | None = fact("room")
    flow: float | None = quantity(
        Kind.VOLUME_FLOW, "L/min", "oxygen-rich gas let in", stem="flow", exact=True
    )
    share: float | None = quantity(
        Kind.MOLE_FRACTION, "vol%", "oxygen in that gas", stem="share", exact=True
    )
    limit: float | None = quantity(
        Kind.MOLE_FRACTION, "vol%", "counts as enriched above", stem="limit", exact=True
    )
    steady: float | None = quantity(
        Kind.MOLE_FRACTION, "vol%", "oxygen in the end", stem="oxygen", exact=True
    )
    high: float | None = quantity(
        Kind.MOLE_FRACTION, "vol%", "in one room of forty more than", stem="high", exact=True
    )
    lasts: float | None = quantity(Kind.TIME, "min", "it goes on for", stem="lasts", exact=True)
    by_then: float | None = quantity(
        Kind.MOLE_FRACTION, "vol%", "oxygen by then", stem="by_then", exact=True
    )
    minutes_to_limit: float | None = fact("minutes until it counts as enriched")
    without_fan: float | None = quantity(
        Kind.TIME, "min", "enriched after the fan fails", stem="fan_failed", exact=True
    )
    sealed: float | None = quantity(
        Kind.TIME, "min", "enriched without any fresh air", stem="sealed", exact=True
    )
    fresh_air: float | None = quantity(
        Kind.VOLUME_FLOW, "L/min", "fresh air now", stem="fresh_air", exact=True
    )
    fresh_air_needed: float | None = quantity(
        Kind.VOLUME_FLOW, "L/min", "fresh air needed", stem="fresh_air_needed", exact=True
    )


def oxygen_answer(
    room: Room,
    supply: OxygenSupply,
    *,
    lasts: float | None = None,
    draws: int = DRAWS,
    seed: int = 0,
) -> OxygenAnswer:
    """Return how much oxygen a supply that leaks or vents into a room brings there."""
    air, limit = best(room), hazard("OXYGEN_ENRICHED").value
    flow, share = supply.flow.value, supply.share.value
    fresh = float(air.fresh * air.volume)
    by_doors = float(room.air_changes.value * air.volume) if room.air_changes else 0.0

    def time(fresh_air: float) -> float | None:
        found = time_to_oxygen(
            limit=limit, flow=flow, oxygen=share, volume=air.volume,
            fresh_air=fresh_air, air_oxygen=X_O2_AIR,
        )  # fmt: skip
        return float(found) if np.isfinite(found) else None

    to_limit = time(fresh)
    answer = OxygenAnswer(
        room=room.label,
        flow=flow,
        share=share,
        limit=limit,
        steady=float(oxygen_steady(flow=flow, oxygen=share, fresh_air=fresh, air_oxygen=X_O2_AIR)),
        high=_high(room, supply, draws, seed),
        lasts=lasts,
        by_then=_by_then(room, supply, lasts),
        minutes_to_limit=None if to_limit is None else number(to_limit, Kind.TIME, "min"),
        without_fan=time(by_doors) if room.fan else None,
        sealed=time(0.0),
        fresh_air=fresh,
        fresh_air_needed=float(
            fresh_air_for_oxygen(flow=flow, oxygen=share, limit=limit, air_oxygen=X_O2_AIR)
        ),
        unknowns=() if room.air_changes or room.fan else ("room.air_changes",),
        sources=("osha_1993", "picard_2008"),
        methods=("well-mixed box, as much gas leaves as enters",),
    )
    return _told(answer, room, air)


def _by_then(room: Room, supply: OxygenSupply, lasts: float | None) -> float | None:
    if lasts is None:
        return None
    air = best(room)
    found = oxygen_fraction(
        time=lasts,
        flow=supply.flow.value,
        oxygen=supply.share.value,
        volume=air.volume,
        fresh_air=air.fresh * air.volume,
        air_oxygen=X_O2_AIR,
    )
    return float(found)


def _high(room: Room, supply: OxygenSupply, draws: int, seed: int) -> float:
    many, _ = drawn(room, draws=draws, seed=seed)
    found = oxygen_steady(
        flow=positive_draws(supply.flow, draws=draws, seed=seed),
        oxygen=supply.share.value,
        fresh_air=many.fresh * many.volume,
        air_oxygen=X_O2_AIR,
    )
    return float(np.quantile(found, 1.0 - TAIL))


def _told(answer: OxygenAnswer, room: Room, air: Air) -> OxygenAnswer:
    fields = {name: getattr(answer, name) for name in answer.__dataclass_fields__}
    fields |= {
        "notes": tuple(_notes(room)),
        "next": tuple(_next(answer)),
        "working": tuple(_working(answer, air)),
    }
    return OxygenAnswer(**fields)


def _notes(room: Room) -> Iterator[Note]:
    if room.air_changes is None and room.fan is None:
        yield Note("room-oxygen-no-air")
    yield Note("room-oxygen-near")
    yield Note("room-oxygen-service")
    yield Note("room-oxygen-clothes")


def _next(answer: OxygenAnswer) -> Iterator[Note]:
    if answer.minutes_to_limit is not None:
        yield Note("room-oxygen-vent", "wrong", {"needed": answer.fresh_air_needed})
    if answer.without_fan is not None:
        yield Note("room-oxygen-fan", "wrong", {"time": answer.without_fan})


def _working(answer: OxygenAnswer, air: Air) -> Iterator[Note]:
    yield Note(
        "room-oxygen-sum-steady",
        values={
            "flow": answer.flow,
            "fresh": answer.fresh_air,
            "share": answer.share,
            "air": X_O2_AIR,
            "steady": answer.steady,
        },
    )
    yield Note(
        "room-oxygen-sum-needed",
        values={
            "flow": answer.flow,
            "share": answer.share,
            "limit": answer.limit,
            "air": X_O2_AIR,
            "needed": answer.fresh_air_needed,
        },
    )
    if answer.minutes_to_limit is not None:
        values = {"minutes": answer.minutes_to_limit, "volume": float(air.volume)}
        yield Note("room-oxygen-sum-time", values=values)
