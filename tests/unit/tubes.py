"""Runs of an invented generator, made by the model itself where a test needs a known truth."""

from __future__ import annotations

from typing import Any

from ozonewright.questions.generator.points import Point, TubeRun
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

NORMAL_LITRE = 1.0 / 22.41397
FEEDS = {"oxygen": (0.93, 0.03), "air": (0.2094, 0.7808)}


def point(litres: float, *, feed: str = "oxygen", **changed: Any) -> Point:
    """Return a place on the map at so many NL/min."""
    oxygen, nitrogen = FEEDS[feed]
    base: dict[str, Any] = {
        "power": 38.0,
        "power_at": "plug",
        "water": 0.0,
        "wall": 330.0,
        "inlet": 295.0,
        "pressure": 101325.0,
    }
    return Point(
        flow=litres * NORMAL_LITRE / 60.0, oxygen=oxygen, nitrogen=nitrogen, **(base | changed)
    )


def tube(label: str, place: Point, grams_per_hour: float, share: float = 0.01) -> TubeRun:
    """Return a run with that output."""
    rate = grams_per_hour / 47.997 / 3600.0
    return TubeRun(label, None, place, Measured(rate, share * rate, "output", Kind.AMOUNT_RATE))
