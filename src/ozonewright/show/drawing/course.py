"""What the gas goes through along the main line, part by part, as far as it is known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ozonewright.show.drawing.figures import behind, drop, pressure_in
from ozonewright.show.drawing.layout import Item
from ozonewright.show.drawing.readout import Readout

CHANGES = ("bottle", "tail bottle", "destruct", "discharge tube", "leak", "tee")
"""Kinds behind which the concentration is unknown unless it was measured."""


@dataclass(frozen=True, slots=True)
class Course:
    """Pressure into an item and lost in it; concentration before and behind it."""

    pressure: float | None
    lost: float
    before: float | None
    behind: float | None


def course(items: Sequence[Item], main: Sequence[int], readout: Readout) -> Mapping[int, Course]:
    """Return what happens at each item of the main line, by its number."""
    now: float | None = 0.0
    found: dict[int, Course] = {}
    for i in main:
        item = items[i]
        measured = behind(item, readout)
        following = measured
        if measured is None and not (now and item.parts[-1].kind in CHANGES):
            following = now
        pressure = pressure_in(item, readout) if item.before else None
        found[i] = Course(pressure, drop(item, readout) or 0.0, now, following)
        now = following
    return found
