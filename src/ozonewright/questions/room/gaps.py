"""What a room leaves open."""

from __future__ import annotations

from ozonewright.records.room import Room


def unknowns(room: Room) -> tuple[str, ...]:
    """Return the places of the document that were left empty and that the answer waits for."""
    stated = ("air_changes", "removal", "temperature", "limit")
    return tuple(f"room.{name}" for name in stated if getattr(room, name) is None)
