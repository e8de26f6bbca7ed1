"""A place on a generator's map as typed: flow, power, feed, tubes, wall, or a timer's pattern."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from ozonewright.bench.tube import with_dew_point, with_feed
from ozonewright.documents.convert import feed_record
from ozonewright.documents.run import feed_of
from ozonewright.documents.typed import typed
from ozonewright.errors import (
    AppError,
    Faults,
    Inconsistent,
    InputError,
    MissingValue,
    OutOfBounds,
    nearest,
)
from ozonewright.physics.gas.flow import molar_flow
from ozonewright.questions.duty import fitted_bodies, typed_body, warmed
from ozonewright.questions.generator import Pattern, Point
from ozonewright.records.run import Gas
from ozonewright.records.temperature_log import TemperatureLog
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

PARTS = re.compile(r",\s*(?=[a-z][a-z _]*=)")
"""Between the parts of a place: a comma before the next name, so that decimal commas may stand."""
PLACES = ("flow", "power", "wall", "feed", "dew point", "tubes beside", "tubes behind")
TIMED = {
    "on": Kind.TIME,
    "off": Kind.TIME,
    "time constant": Kind.TIME,
    "rise": Kind.TEMPERATURE_DIFFERENCE,
    "ambient": Kind.TEMPERATURE,
}
"""What a timer's pattern and the warming of the tube are written as."""
EXAMPLES = {"on": "6 min", "off": "9 min", "time constant": "4.6 min", "rise": "60 K"}
MOST_TUBES = 20


def moved(
    point: Point, gas: Gas, text: str | None, log: TemperatureLog | None
) -> tuple[Point, Pattern | None]:
    """Return the point that a text like ``flow=1.2 L/min, wall=45 °C`` moves to.

    With ``on`` and ``off`` it is warmed as that pattern warms it; the warming is that of a log, or
    stands beside them: ``on=6 min, off=9 min, time constant=4.6 min, rise=60 K``.
    """
    faults: list[AppError] = []
    timed: dict[str, Measured] = {}
    names = set()
    for part in PARTS.split(text.strip()) if text and text.strip() else []:
        name, _, value = (piece.strip() for piece in part.partition("="))
        name = name.replace("_", " ")
        names.add(name)
        try:
            if not value:
                raise MissingValue("nothing stands behind =", fix='Write it as "flow=1.2 L/min".')
            if name in TIMED:
                timed[name] = typed(value, (TIMED[name],), above=0.0).measured(name)
            else:
                point = _set(point, gas, name, value)
        except AppError as error:
            faults.append(error.at(name))
    if faults:
        raise Faults(faults)
    if not timed:
        return point, None
    if "wall" in names:
        raise Inconsistent(
            "a pattern and a wall are two temperatures of the tube",
            where="wall",
            fix="Leave out one of the two.",
        )
    pattern = _pattern(timed, gas, log)
    return replace(point, wall=pattern.mean), pattern


def _pattern(timed: Mapping[str, Measured], gas: Gas, log: TemperatureLog | None) -> Pattern:
    """Return the pattern with the temperatures of the tube under it; every fault at once."""
    needed = ("on", "off") if log else ("on", "off", "time constant", "rise")
    faults: list[AppError] = [
        MissingValue(
            "a pattern needs this", where=name, fix=f'Write it as "{name}={EXAMPLES[name]}".'
        )
        for name in needed
        if name not in timed
    ]
    twice = ("time constant", "rise") if log else ()
    faults += [
        Inconsistent("the temperature log tells this too", where=name, fix="Leave out one.")
        for name in twice
        if name in timed
    ]
    if "ambient" not in timed and gas.temperature is None and log is None:
        faults.append(
            MissingValue(
                "how warm is the air around the tube?",
                where="ambient",
                fix='Write "ambient=22 °C".',
            )
        )
    if faults:
        raise Faults(faults)
    bodies = fitted_bodies(log) if log else typed_body(timed["time constant"], timed["rise"], None)
    ambient = timed.get("ambient") or bodies.ambient or gas.temperature
    assert ambient is not None
    on, off = timed["on"].value, timed["off"].value
    return Pattern(on, off, *warmed(bodies, ambient.value, on, off))


def _set(point: Point, gas: Gas, name: str, value: str) -> Point:
    if name not in PLACES:
        known = (*PLACES, *TIMED)
        raise InputError("a generator has no such setting", got=name, fix=nearest(name, known))
    if name == "flow":
        return replace(point, flow=_flow(value, gas))
    if name == "power":
        return replace(point, power=typed(value, (Kind.POWER,), above=0.0).value)
    if name == "wall":
        return replace(point, wall=typed(value, (Kind.TEMPERATURE,), above=0.0).value)
    if name == "feed":
        return with_feed(point, feed_record(feed_of(value), None))
    if name == "dew point":
        return with_dew_point(point, typed(value, (Kind.TEMPERATURE,), above=0.0).value)
    if name == "tubes beside":
        return replace(point, parallel=_tubes(value))
    return replace(point, series=_tubes(value))


def _flow(value: str, gas: Gas) -> float:
    flow = typed(value, (Kind.VOLUME_FLOW, Kind.NORMAL_FLOW), above=0.0)
    if flow.kind is Kind.NORMAL_FLOW:
        return flow.value
    if gas.temperature is None or gas.pressure is None:
        raise MissingValue(
            "the last run does not say at which temperature and pressure litres are meant",
            got=value,
            fix='Write a normal flow: "1.1 NL/min".',
        )
    return float(
        molar_flow(
            volume_flow=flow.value,
            temperature=gas.temperature.value,
            pressure=gas.pressure.value,
            water_fraction=0.0,
        )
    )


def _tubes(value: str) -> float:
    if not value.isdigit() or not 1 <= int(value) <= MOST_TUBES:
        raise OutOfBounds(
            "tubes are counted", got=value, fix=f"Write a whole number from 1 to {MOST_TUBES}."
        )
    return float(value)
