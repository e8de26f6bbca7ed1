"""What could be changed at a generator, each as another point of its map."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ozonewright.questions.generator.points import Point
from ozonewright.units import Kind, size

KELVIN = size(Kind.TEMPERATURE_DIFFERENCE, "K")
COOLER = 20.0 * KELVIN
NEAR_INLET = 5.0 * KELVIN
"""A wall this close to the gas that comes in can't be cooled much by a fan."""
DAMP = 1e-4
"""Water for each mole of feed above which drying is worth a row; a dew point of about -40 °C."""
CONCENTRATOR = (0.93, 0.03)
"""Oxygen and nitrogen of a concentrator's gas; common practice, no source."""
OXYGEN_FEED = 0.85
"""Oxygen from which a feed counts as oxygen (common practice, no source)."""


def changes(point: Point) -> Iterator[tuple[str, Point]]:
    """Yield the changes that mean something at this point, by their names."""
    yield "twice the flow", replace(point, flow=2.0 * point.flow)
    yield "half the flow", replace(point, flow=0.5 * point.flow)
    if point.wall is None or point.wall - point.inlet > NEAR_INLET:
        yield "cooler wall", replace(point, cooler=point.cooler + _cooler(point))
    if point.water is None or point.water > DAMP:
        yield "dry feed", replace(point, water=0.0)
    if point.oxygen < OXYGEN_FEED:
        oxygen, nitrogen = CONCENTRATOR
        yield "oxygen feed", replace(point, oxygen=oxygen, nitrogen=nitrogen, water=0.0)
    if point.power is not None:
        yield "half more power", replace(point, power=1.5 * point.power)
    yield "second tube beside", replace(point, parallel=2.0 * point.parallel)
    yield "second tube behind", replace(point, series=2.0 * point.series)


def _cooler(point: Point) -> float:
    return COOLER if point.wall is None else min(COOLER, point.wall - point.inlet)


def names() -> tuple[str, ...]:
    """Return the name of every change."""
    return (
        "twice the flow", "half the flow", "cooler wall", "dry feed", "oxygen feed",
        "half more power", "second tube beside", "second tube behind",
    )  # fmt: skip


def runs_to_make(point: Point) -> Iterator[tuple[str, Point]]:
    """Yield runs that a person could make without buying anything."""
    yield "twice the flow", replace(point, flow=2.0 * point.flow)
    yield "half the flow", replace(point, flow=0.5 * point.flow)
    yield "a fifth of the flow", replace(point, flow=0.2 * point.flow)
    yield "cooler wall", replace(point, cooler=point.cooler + _cooler(point))
    if point.power is not None:
        yield "half the power", replace(point, power=0.5 * point.power)
    if point.oxygen >= OXYGEN_FEED:
        yield "dry air", replace(point, oxygen=0.2094, nitrogen=0.7808, water=0.0)
    yield "the same again", point
