"""Cases about a room, and about vapour."""

from __future__ import annotations

from ozonewright.physics.hazards.room import (
    loss_rate,
    removal_by_deposition,
    steady_concentration,
    time_to_fall,
)
from ozonewright.physics.hazards.solvent import vapour_of
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.units import Kind


def _deposition(inputs: Inputs) -> dict[str, Found]:
    removal = removal_by_deposition(
        deposition_velocity=si(inputs, "deposition_velocity", Kind.VELOCITY),
        surface_per_volume=si(inputs, "surface", Kind.AREA) / si(inputs, "volume", Kind.VOLUME),
    )
    return {"removal": Found(float(removal), Kind.RATE)}


def _fall(inputs: Inputs) -> dict[str, Found]:
    time = time_to_fall(
        start=si(inputs, "start", Kind.MASS_CONCENTRATION),
        limit=si(inputs, "limit", Kind.MASS_CONCENTRATION),
        loss=si(inputs, "loss", Kind.RATE),
    )
    return {"time": Found(float(time), Kind.TIME)}


def _steady(inputs: Inputs) -> dict[str, Found]:
    steady = steady_concentration(
        release=si(inputs, "release", Kind.MASS_RATE),
        volume=si(inputs, "volume", Kind.VOLUME),
        loss=loss_rate(
            air_changes=si(inputs, "air_changes", Kind.RATE),
            removal=si(inputs, "removal", Kind.RATE),
        ),
    )
    return {"steady": Found(float(steady), Kind.MASS_CONCENTRATION)}


def _vapour(inputs: Inputs) -> dict[str, Found]:
    found = vapour_of(
        substance=inputs["substance"],
        temperature=si(inputs, "temperature", Kind.TEMPERATURE),
    )
    return {"pressure": Found(float(found.pressure), Kind.PRESSURE)}


BINDINGS: dict[str, Binding] = {
    "room.removal_by_deposition": _deposition,
    "room.time_to_fall": _fall,
    "room.steady": _steady,
    "hazards.vapour_pressure": _vapour,
}
