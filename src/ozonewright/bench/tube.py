"""From a run's record to its place on the map of its generator."""

from __future__ import annotations

from dataclasses import replace

from ozonewright.physics.gas.water import (
    TRIPLE_TEMPERATURE,
    saturation_pressure_ice,
    saturation_pressure_water,
    water_fraction,
)
from ozonewright.questions.generator import Point, TubeRun
from ozonewright.questions.output import Output
from ozonewright.records.run import Feed, Run
from ozonewright.references.constants import NORMAL_PRESSURE, NORMAL_TEMPERATURE
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind, size

ROOM = NORMAL_TEMPERATURE + 20.0 * size(Kind.TEMPERATURE_DIFFERENCE, "K")
"""Of the gas that comes in, where its temperature was not stated; one degree hardly counts."""


def tube_run(run: Run, found: Output, label: str) -> TubeRun | str:
    """Return a run as its generator's map needs it, or the place of what it lacks."""
    rate, flow, feed = found.rate_amount, found.feed_flow, run.gas.feed
    if not isinstance(rate, Estimate) or rate.value <= 0.0:
        return "run.rate"
    if not isinstance(flow, Estimate):
        return "gas.flow"
    if feed is None or "oxygen" not in feed.parts or feed.parts["oxygen"].value <= 0.0:
        return "gas.feed"
    gas = run.gas
    power, power_at = run.power, run.power_at
    if power is None and run.discharge_power is not None:
        power, power_at = run.discharge_power, "discharge"
    inlet = gas.temperature.value if gas.temperature else ROOM
    pressure = gas.pressure.value if gas.pressure else NORMAL_PRESSURE
    point = Point(
        flow=flow.value,
        power=power.value if power else None,
        power_at=power_at,
        oxygen=feed.parts["oxygen"].value,
        nitrogen=feed.parts["nitrogen"].value if "nitrogen" in feed.parts else 0.0,
        water=_water(feed, pressure),
        wall=run.wall.value if run.wall else None,
        inlet=inlet,
        pressure=pressure,
    )
    return TubeRun(
        label=label,
        setting=run.setting,
        point=point,
        rate=Measured(rate.value, rate.u, "output", Kind.AMOUNT_RATE),
        cold=run.start == "cold" and run.wall is None,
        plug=run.power if run.power_at == "plug" else None,
        discharge=run.discharge_power,
    )


def _water(feed: Feed, pressure: float) -> float | None:
    """Return water for each mole of dry feed; None for room air whose dew point nobody read."""
    if feed.dew_point is not None:
        return _of_dew_point(feed.dew_point.value, pressure)
    return None if feed.may_be_moist else 0.0


def _of_dew_point(dew_point: float, pressure: float) -> float:
    over_ice = dew_point < TRIPLE_TEMPERATURE
    law = saturation_pressure_ice if over_ice else saturation_pressure_water
    share = water_fraction(water_pressure=law(temperature=dew_point), pressure=pressure)
    return float(share / (1.0 - share))


def with_feed(point: Point, feed: Feed) -> Point:
    """Return the point with another feed."""
    return replace(
        point,
        oxygen=feed.parts["oxygen"].value,
        nitrogen=feed.parts["nitrogen"].value if "nitrogen" in feed.parts else 0.0,
        water=_water(feed, point.pressure),
    )


def with_dew_point(point: Point, dew_point: float) -> Point:
    """Return the point with a feed of another dew point."""
    return replace(point, water=_of_dew_point(dew_point, point.pressure))
