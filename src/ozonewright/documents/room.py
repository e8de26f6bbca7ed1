"""The room document: the air that people breathe while ozone is made."""

from __future__ import annotations

from typing import Annotated

from ozonewright.documents.section import Reader, Section
from ozonewright.documents.typed import (
    AirPressure,
    RoomTemperature,
    Typed,
    Volume,
    field,
    typed,
)
from ozonewright.errors import UnitError
from ozonewright.records.room import Room
from ozonewright.references.exposure import ExposureLimit, exposure_limit
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

PerTime = Annotated[Typed, field(Kind.RATE, least=0.0)]
Fan = Annotated[Typed, field(Kind.VOLUME_FLOW, least=0.0)]


def _limit(value: object) -> ExposureLimit:
    """Read a limit: a concentration of the person's own, or the name of a jurisdiction."""
    if not isinstance(value, str) or not value.strip():
        raise UnitError(
            "a limit is text",
            got=str(value),
            fix='Write limit = "0.1 ppm", or a jurisdiction: limit = "United Kingdom".',
        )
    if not value.strip()[0].isdigit() and value.strip()[0] not in "+-.,":
        return exposure_limit(value)
    own = typed(value, (Kind.MOLE_FRACTION, Kind.MASS_CONCENTRATION), above=0.0)
    return ExposureLimit(
        name=own.text,
        value=own.value,
        kind=own.kind,
        average=None,
        basis="never to be passed",
        dated="",
        own=True,
    )


class RoomSection(Section):
    label: str | None = None
    by: str | None = None
    remark: str | None = None
    volume: Volume
    air_changes: PerTime | None = None
    fan: Fan | None = None
    removal: PerTime | None = None
    decay: PerTime | None = None
    temperature: RoomTemperature | None = None
    pressure: AirPressure | None = None
    limit: Annotated[ExposureLimit | None, Reader(_limit)] = None


class RoomDocument(Section):
    """One room."""

    room: RoomSection


def room_record(document: RoomDocument) -> Room:
    """Return the numeric twin of a room document."""
    room = document.room
    return Room(
        volume=room.volume.measured("room volume"),
        label=room.label,
        air_changes=_named(room.air_changes, "air changes"),
        fan=_named(room.fan, "fan"),
        removal=_named(room.removal, "removal on surfaces"),
        decay=_named(room.decay, "decay in the air"),
        temperature=_named(room.temperature, "room temperature"),
        pressure=_named(room.pressure, "room pressure"),
        limit=room.limit,
    )


def _named(value: Typed | None, name: str) -> Measured | None:
    return None if value is None else value.measured(name)
