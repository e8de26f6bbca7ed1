"""The air of a room as numbers: once at the best estimates, once as ten thousand rooms."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ozonewright.physics import Real
from ozonewright.physics.gas.composition import molar_volume
from ozonewright.physics.gas.flow import mass_per_volume
from ozonewright.physics.hazards.room import loss_rate
from ozonewright.records.room import Room
from ozonewright.references.hazards import hazard
from ozonewright.uncertain import Measured
from ozonewright.uncertain.positive import DRAWS, positive_draws
from ozonewright.units import Kind

NONE = Measured(0.0, 0.0, "none", Kind.RATE, basis="exact")
STILL = Measured(0.0, 0.0, "no fan", Kind.VOLUME_FLOW, basis="exact")


@dataclass(frozen=True)
class Air:
    """Volume, fresh air and losses; floats, or arrays of draws."""

    volume: Real
    fresh: Real
    """Air changes, fan included. [1/s]"""
    removal: Real
    """Loss by all else. [1/s]"""

    @cached_property
    def loss(self) -> Real:
        """First-order rate of all losses. [1/s]"""
        return loss_rate(air_changes=self.fresh, removal=self.removal)


def published_removal() -> Measured:
    """Return the loss on the surfaces of furnished homes, where a room states none."""
    found = hazard("ROOM_REMOVAL")
    assert found.u is not None
    return Measured(found.value, found.u, "removal on surfaces", found.kind, basis="table")


def inputs(room: Room) -> dict[str, Measured]:
    """Return the measured values of a room by field: no air change where none is stated."""
    return {
        "volume": room.volume,
        "air_changes": room.air_changes or NONE,
        "fan": room.fan or STILL,
        "removal": room.removal or published_removal(),
        "decay": room.decay or NONE,
    }


def best(room: Room) -> Air:
    """Return the air at the best estimates."""
    return _air({name: measured.value for name, measured in inputs(room).items()})


def drawn(
    room: Room, *, draws: int = DRAWS, seed: int = 0
) -> tuple[Air, dict[str, NDArray[np.float64] | float]]:
    """Return the air of many rooms, and the draws behind it by the name of each input."""
    given = inputs(room)
    parts = {name: positive_draws(one, draws=draws, seed=seed) for name, one in given.items()}
    return _air(parts), {given[name].name: part for name, part in parts.items()}


def _air(parts: dict[str, float] | dict[str, NDArray[np.float64] | float]) -> Air:
    volume, fan = parts["volume"], parts["fan"]
    return Air(
        volume=volume,
        fresh=parts["air_changes"] + fan / volume,
        removal=loss_rate(air_changes=0.0, removal=parts["removal"], decay=parts["decay"]),
    )


def state(room: Room) -> tuple[float, float]:
    """Return temperature and pressure of the air, or the usual ones where none are stated."""
    return (
        room.temperature.value if room.temperature else hazard("REFERENCE_TEMPERATURE_AIR").value,
        room.pressure.value if room.pressure else hazard("REFERENCE_PRESSURE_AIR").value,
    )


def per_fraction(room: Room) -> float:
    """Return the mass per volume of pure ozone in the air of a room, so 1 ppm is 1e-6 of it."""
    temperature, pressure = state(room)
    return float(mass_per_volume(mole_fraction=1.0, temperature=temperature, pressure=pressure))


def in_room(room: Room) -> float:
    """Return the volume of a mole of gas in the air of a room."""
    temperature, pressure = state(room)
    return float(molar_volume(temperature=temperature, pressure=pressure))


def limit_of(room: Room) -> float | None:
    """Return the limit of a room as mass per volume."""
    if room.limit is None:
        return None
    if room.limit.kind is Kind.MASS_CONCENTRATION:
        return room.limit.value
    return room.limit.value * per_fraction(room)
