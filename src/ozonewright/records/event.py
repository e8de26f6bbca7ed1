"""A press at the bench: what was switched, and when by which clocks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

Act = Literal["gas on", "gas off", "discharge on", "discharge off", "divert", "into bottle", "stop"]
ACTS: tuple[Act, ...] = (
    "gas on", "gas off", "discharge on", "discharge off", "divert", "into bottle", "stop",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Moment:
    """One instant, by the wall clock and by the clock that nobody sets."""

    wall: datetime
    """With its offset."""
    steady: float | None = None
    """Seconds of the monotonic clock; None where only a time of day is known."""
    boot: str | None = None
    """Which running system the monotonic clock belongs to."""


@dataclass(frozen=True, slots=True)
class Event:
    """One event of a run or a reaction, in the order in which the notebook took them in."""

    id: str
    what: Act
    at: Moment
    sent_after: float = 0.0
    """Seconds between the press and its arrival, where it had to wait."""
