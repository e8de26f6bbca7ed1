"""A room in which ozone may be let out."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.references.exposure import ExposureLimit
from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class Room:
    """The air of a room and what clears it; None means not stated."""

    volume: Measured
    label: str | None = None
    air_changes: Measured | None = None
    """Fresh air per volume without the fan, per second."""
    fan: Measured | None = None
    """Fresh air that a fan moves besides. [m3/s]"""
    removal: Measured | None = None
    """Loss on surfaces, per second."""
    decay: Measured | None = None
    """Loss in the air itself, per second."""
    temperature: Measured | None = None
    pressure: Measured | None = None
    limit: ExposureLimit | None = None
