"""Temperatures of the generator, noted while it was switched."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class TemperatureLog:
    """Readings in order of time; SI."""

    times: tuple[float, ...]
    """Since the first reading. [s]"""
    temperatures: tuple[float, ...]
    on: tuple[bool, ...]
    """Whether the discharge is on from this reading to the next."""
    switched: bool
    """Whether the log says so itself; else the discharge is taken as on throughout."""
    begun: datetime | None = None
    """When the first reading was made; None where the log counts its own minutes."""
