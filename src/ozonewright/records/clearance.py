"""What was done and tested after the ozone of a reaction was off."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from ozonewright.records.reaction import Reaction
from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class PeroxideTest:
    """One test for peroxides, with what it said at its worst."""

    when: datetime
    """With its offset."""
    reading: Literal["negative", "positive"]
    method: str | None = None
    by: str | None = None
    changed: bool = False
    """A positive reading that was corrected or struck out later: it counts as positive."""


@dataclass(frozen=True, slots=True)
class Flask:
    """A reaction flask after the ozone."""

    label: str
    now: datetime
    reaction: Reaction | None = None
    quenched: datetime | None = None
    waiting: Measured | None = None
    """How long the quench takes, as stated when it was logged."""
    ozone: datetime | None = None
    """When ozone was last let in."""
    tests: tuple[PeroxideTest, ...] = ()
    """In the order of time."""
