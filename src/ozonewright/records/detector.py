"""Readings of a detector in a room, and when ozone was let in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class DetectorReading:
    """One reading: a mole fraction, or mass per volume."""

    when: datetime
    value: Measured


@dataclass(frozen=True, slots=True)
class DetectorLog:
    """The readings of one room, in the order of time."""

    readings: tuple[DetectorReading, ...]
    releases: tuple[tuple[datetime, datetime | None], ...] = ()
    """Begin and end of each release; without any the release counts as going on all the time."""
    marked: bool = False
    """Whether begins and ends were logged at all."""
