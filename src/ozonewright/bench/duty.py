"""What a timer does to the generator."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from ozonewright.documents.temperature_log import read_temperature_log
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, Inconsistent, InputError, MissingValue, nearest
from ozonewright.physics.generator.duty import course_share
from ozonewright.questions.duty import (
    Bodies,
    Duty,
    Timer,
    duty,
    elsewhere,
    fitted_bodies,
    typed_body,
)
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind

FIELDS: dict[str, tuple[Kind, ...]] = {
    "on": (Kind.TIME,),
    "off": (Kind.TIME,),
    "time_constant": (Kind.TIME,),
    "output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "rise": (Kind.TEMPERATURE_DIFFERENCE,),
    "ambient": (Kind.TEMPERATURE,),
    "limit": (Kind.TEMPERATURE,),
    "flow": (Kind.NORMAL_FLOW,),
}
"""What may be typed, and its kinds."""
SET = ("on", "off", "limit")
"""What is set, not read: its digits say nothing of how sure it is."""
NEEDED = {"on": "6 min", "off": "9 min", "time_constant": "4.6 min"}
OF_THE_LOG = ("time_constant", "rise")
"""What a temperature log tells, so that it need not be typed."""
GAS = ("runs on", "stops")


def timer(texts: Mapping[str, str | None]) -> Duty:
    """Return what the pattern does, from quantities typed as text; all faults at once.

    `log` is the text of a temperature log, from which time constants, rises and the ambient are
    fitted; an ambient typed beside it is where the pattern is to run.
    """
    read: dict[str, Measured] = {}
    faults: list[AppError] = []
    log = texts.get("log")
    for name, kinds in FIELDS.items():
        text = texts.get(name)
        try:
            if text:
                read[name] = _measured(name, typed(text, kinds, above=0.0))
            elif name in NEEDED and not (log and name in OF_THE_LOG):
                raise MissingValue("this is needed", fix=f'Write it as "{NEEDED[name]}".')
        except AppError as error:
            faults.append(error.at(name))
    gas: Any = texts.get("gas") or None
    if gas is not None and gas not in GAS:
        faults.append(
            InputError(
                "the gas either runs on or stops", where="gas", got=gas, fix=nearest(gas, GAS)
            )
        )
    if log:
        faults += [_twice(name) for name in OF_THE_LOG if name in read]
    bodies = _fitted(log, faults) if log else None
    if faults:
        raise Faults(faults)
    if bodies is None:
        bodies = typed_body(read["time_constant"], read.get("rise"), read.get("ambient"))
    elif "ambient" in read:
        bodies = elsewhere(bodies, read["ambient"])
    return duty(
        Timer(
            on=read["on"],
            off=read["off"],
            bodies=bodies,
            rate=read.get("output"),
            limit=read.get("limit"),
            flow=read.get("flow"),
            gas=gas,
        )
    )


def _twice(name: str) -> AppError:
    return Inconsistent(
        "the temperature log tells this too",
        where=name,
        fix="Leave out one of the two.",
    )


def _fitted(log: str, faults: list[AppError]) -> Bodies | None:
    try:
        return fitted_bodies(read_temperature_log(log))
    except Faults as several:
        faults += [fault.at("log") for fault in several]
    except AppError as error:
        faults.append(error.at("log"))
    return None


def _measured(name: str, value: Typed) -> Measured:
    if name in SET and value.basis == "from digits":
        value = replace(value, u=0.0, basis="as set")
    return value.measured(name.replace("_", " "))


CYCLES = 6
"""Shown from cold."""
PER_CYCLE = 60


def warming(result: Duty) -> tuple[list[float], list[float]]:
    """Return times and the share of the continuous rise at each, from cold, ends included."""
    on, off = result.on, result.off
    assert on is not None and off is not None  # noqa: PT018
    cycle = np.unique(np.concatenate([np.linspace(0.0, on + off, PER_CYCLE), [on]]))[:-1]
    times = (np.arange(CYCLES)[:, None] * (on + off) + cycle).ravel()
    weights = [_value(body.rise) or 1.0 for body in result.bodies]
    shares = sum(
        weight
        * course_share(
            time=times, on_time=on, off_time=off, time_constant=_value(body.time_constant)
        )
        for weight, body in zip(weights, result.bodies, strict=True)
    )
    return times.tolist(), (np.asarray(shares) / sum(weights)).tolist()


def _value(one: Estimate | float | None) -> float:
    return one.value if isinstance(one, Estimate) else one or 0.0
