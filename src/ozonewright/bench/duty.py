"""What a timer does to the generator."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, InputError, MissingValue, nearest
from ozonewright.physics.generator.duty import course_share
from ozonewright.questions.duty import Duty, Timer, duty
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
GAS = ("runs on", "stops")


def timer(texts: Mapping[str, str | None]) -> Duty:
    """Return what the pattern does, from quantities typed as text; all faults at once."""
    read: dict[str, Measured] = {}
    faults: list[AppError] = []
    for name, kinds in FIELDS.items():
        text = texts.get(name)
        try:
            if text:
                read[name] = _measured(name, typed(text, kinds, above=0.0))
            elif name in NEEDED:
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
    if faults:
        raise Faults(faults)
    return duty(Timer(**{_field(name): value for name, value in read.items()}, gas=gas))


def _measured(name: str, value: Typed) -> Measured:
    if name in SET and value.basis == "from digits":
        value = replace(value, u=0.0, basis="as set")
    return value.measured(name.replace("_", " "))


def _field(name: str) -> str:
    return "rate" if name == "output" else name


CYCLES = 6
"""Shown from cold."""
PER_CYCLE = 60


def warming(result: Duty) -> tuple[list[float], list[float]]:
    """Return times and the share of the continuous rise at each, from cold, ends included."""
    on, off, tau = result.on, result.off, result.time_constant
    assert on is not None and off is not None and isinstance(tau, Estimate)  # noqa: PT018
    cycle = np.unique(np.concatenate([np.linspace(0.0, on + off, PER_CYCLE), [on]]))[:-1]
    times = (np.arange(CYCLES)[:, None] * (on + off) + cycle).ravel()
    shares = course_share(time=times, on_time=on, off_time=off, time_constant=tau.value)
    return times.tolist(), np.asarray(shares).tolist()
