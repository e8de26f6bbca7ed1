"""The ways in which ozone gets out, from an output and shares of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ozonewright.physics.hazards.release import (
    mass_of_purge,
    release_by_leak,
    release_by_slip,
)
from ozonewright.questions.room.air import in_room, state
from ozonewright.records.room import Room
from ozonewright.uncertain import Measured, propagate
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Release:
    """Ozone let into a room: a steady rate, or a mass at once."""

    name: str
    rate: Measured | None = None
    """In kg/s."""
    mass: Measured | None = None
    """In kg."""


def releases(
    *,
    release: Measured | None = None,
    output: Measured | None = None,
    slip: Measured | None = None,
    destroyed: Measured | None = None,
    leak: Measured | None = None,
    purge: Measured | None = None,
) -> Iterator[Release]:
    """Yield every release that follows from what is stated, the one asked for first.

    A share without its own name keeps the uncertainty of the output: u of the share is small
    beside what a room does.
    """
    if release is not None:
        yield Release("release", rate=release)
    if output is not None:
        yield Release("hose off", rate=output)
        if slip is not None:
            yield Release("nothing after the flask", rate=_part(output, slip.value, 0.0))
            if destroyed is not None:
                rate = _part(output, slip.value, destroyed.value)
                yield Release("slip past the tail", rate=rate)
        if leak is not None:
            yield Release("leak", rate=_part(output, leak.value, 0.0))
    if purge is not None:
        yield Release("purge", mass=purge)


def releases_of_gas(
    room: Room,
    concentration: Measured,
    *,
    leak_flow: Measured | None = None,
    gas_space: Measured | None = None,
) -> Iterator[Release]:
    """Yield what gets out of a gas of stated strength: through a joint, or when it is purged."""
    temperature, pressure = state(room)
    if leak_flow is not None:
        each = in_room(room) if leak_flow.kind is Kind.VOLUME_FLOW else 1.0
        rate = propagate(
            lambda c, q: release_by_leak(concentration=c, leak=q / each),
            {"c": concentration, "q": leak_flow},
        )
        yield Release("leak", rate=Measured(rate.value, rate.u, "leak", Kind.MASS_RATE))
    if gas_space is not None:
        mass = propagate(
            lambda c, v: mass_of_purge(
                concentration=c, volume=v, temperature=temperature, pressure=pressure
            ),
            {"c": concentration, "v": gas_space},
        )
        yield Release("purge", mass=Measured(mass.value, mass.u, "purge", Kind.MASS))


def _part(output: Measured, slip: float, destroyed: float) -> Measured:
    """Return the part of the output that gets out."""
    value, u = (
        float(release_by_slip(output=each, uptake=1.0 - slip, destroyed=destroyed))
        for each in (output.value, output.u)
    )
    return replace(output, value=value, u=u)
