"""What a timer does to the generator."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from ozonewright.bench.duty_output import Given, output_of_notebook
from ozonewright.bench.walls import log_of_entries
from ozonewright.documents.temperature_log import read_temperature_log
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import (
    AppError,
    Faults,
    Inconsistent,
    InputError,
    MissingValue,
    OutOfBounds,
    nearest,
)
from ozonewright.notebook import Notebook
from ozonewright.physics.generator.duty import course_share
from ozonewright.physics.generator.falling import output_between
from ozonewright.physics.hazards.solvent import vapour_of
from ozonewright.physics.hazards.vapour import vapour_fraction
from ozonewright.questions.duty import (
    STATES,
    Bodies,
    Duty,
    Falling,
    Fan,
    Timer,
    Wet,
    duty,
    elsewhere,
    fitted_bodies,
    typed_body,
)
from ozonewright.records.temperature_log import TemperatureLog
from ozonewright.references.constants import NORMAL_PRESSURE
from ozonewright.references.liquid_viscosity import viscosities_of
from ozonewright.references.vapour import first_name
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
    "temperature_coefficient": (Kind.PER_KELVIN,),
    "output_at": (Kind.TEMPERATURE,),
    "liquid_temperature": (Kind.TEMPERATURE,),
    "heat": (Kind.POWER,),
    "tube_diameter": (Kind.LENGTH,),
    "tube_length": (Kind.LENGTH,),
    "fan": (Kind.VOLUME_FLOW,),
    "shut_off": (Kind.PRESSURE_DIFFERENCE,),
    "openings": (Kind.AREA,),
    "box_section": (Kind.AREA,),
    "fan_outlet": (Kind.AREA,),
}
"""What may be typed, and its kinds."""
SIGNED = ("temperature_coefficient",)
OF_THE_NOTEBOOK = ("output", "temperature_coefficient", "output_at")
"""What a notebook tells, so that it need not be typed."""
ALL_VAPOUR = 0.9
"""Vapour in the gas that leaves from which a liquid as good as boils."""
TUBE = {"heat": "30 W", "tube_diameter": "20 mm", "tube_length": "200 mm"}
"""What must be known of the tube before a fan can be told."""
OF_THE_AIR = (*TUBE, "fan", "shut_off", "openings", "box_section", "fan_outlet")
SET = ("on", "off", "limit", "output_at")
"""What is set, not read: its digits say nothing of how sure it is."""
NEEDED = {"on": "6 min", "off": "9 min", "time_constant": "4.6 min"}
OF_THE_LOG = ("time_constant", "rise")
"""What a temperature log tells, so that it need not be typed."""
GAS = ("runs on", "stops")


def timer(texts: Mapping[str, str | None], notebook: Notebook | None = None) -> Duty:
    """Return what the pattern does, from quantities typed as text; all faults at once.

    `log` is the text of a temperature log, from which time constants, rises and the ambient are
    fitted; an ambient typed beside it is where the pattern is to run. With a notebook, `readings`
    takes the temperatures logged of that label instead, and an output that is not typed is that of
    the generator fitted to its runs (`setting`, `at`).
    """
    faults: list[AppError] = []
    read = _read(texts, faults)
    gas: Any = texts.get("gas") or None
    if gas is not None and gas not in GAS:
        faults.append(
            InputError(
                "the gas either runs on or stops", where="gas", got=gas, fix=nearest(gas, GAS)
            )
        )
    named = bool(texts.get("setting") or texts.get("at"))
    asked = notebook if "output" not in read or named else None
    if asked is not None:
        faults += [_twice(name, "the notebook") for name in OF_THE_NOTEBOOK if name in read]
    bodies = _bodies(texts, read, notebook, faults)
    falling = _falling(texts, read, faults)
    fan = _fan(read, bodies, faults)
    wet = _wet(texts, read, faults)
    if faults:
        raise Faults(faults)
    assert bodies is not None
    given = Given(read.get("output"), falling, ())
    if asked is not None:
        given = output_of_notebook(asked, texts, bodies)
    return duty(
        Timer(
            on=read["on"],
            off=read["off"],
            bodies=bodies,
            rate=given.rate,
            falling=given.falling,
            limit=read.get("limit"),
            flow=read.get("flow"),
            gas=gas,
            notes=given.notes,
            fan=fan,
            wet=wet,
        )
    )


def _read(texts: Mapping[str, str | None], faults: list[AppError]) -> dict[str, Measured]:
    read: dict[str, Measured] = {}
    for name, kinds in FIELDS.items():
        text = texts.get(name)
        try:
            if name == "output_at" and text in STATES:
                continue
            if text:
                above = None if name in SIGNED else 0.0
                read[name] = _measured(name, typed(text, kinds, above=above))
            elif name in NEEDED and not (_logged(texts) and name in OF_THE_LOG):
                raise MissingValue("this is needed", fix=f'Write it as "{NEEDED[name]}".')
        except AppError as error:
            faults.append(error.at(name))
    return read


def _logged(texts: Mapping[str, str | None]) -> bool:
    return bool(texts.get("log") or texts.get("readings"))


def _bodies(
    texts: Mapping[str, str | None],
    read: Mapping[str, Measured],
    notebook: Notebook | None,
    faults: list[AppError],
) -> Bodies | None:
    """Return what warms: from the log, from readings of the notebook, or as typed."""
    if not _logged(texts):
        if "time_constant" not in read:
            return None
        return typed_body(read["time_constant"], read.get("rise"), read.get("ambient"))
    faults += [_twice(name, "the temperature log") for name in OF_THE_LOG if name in read]
    if texts.get("log") and texts.get("readings"):
        faults.append(_twice("readings", "the temperature log"))
    bodies = _fitted(texts, notebook, faults)
    return elsewhere(bodies, read["ambient"]) if bodies and "ambient" in read else bodies


def _fan(read: Mapping[str, Measured], bodies: Bodies | None, faults: list[AppError]) -> Fan | None:
    """Return the tube in its air, and the fan; None where nothing is said of them."""
    if not any(name in read for name in OF_THE_AIR):
        return None
    missing = [name for name in TUBE if name not in read]
    faults += [
        MissingValue("air and fan need this", where=name, fix=f'Write it as "{TUBE[name]}".')
        for name in missing
    ]
    if missing:
        return None
    return Fan(
        heat=read["heat"],
        diameter=read["tube_diameter"],
        length=read["tube_length"],
        ambient=read.get("ambient") or (bodies.ambient if bodies else None),
        free_flow=read.get("fan"),
        shut_off=read.get("shut_off"),
        openings=read.get("openings"),
        box_section=read.get("box_section"),
        fan_area=read.get("fan_outlet"),
    )


def _wet(
    texts: Mapping[str, str | None], read: Mapping[str, Measured], faults: list[AppError]
) -> Wet | None:
    """Return the solvent that the gas passes through; None where none is named."""
    name, warm = texts.get("solvent") or None, read.get("liquid_temperature")
    if name is None:
        return None
    if warm is None:
        faults.append(
            MissingValue(
                "how cold is the solvent?", where="liquid_temperature", fix='Write it as "-40 °C".'
            )
        )
        return None
    try:
        vapour = vapour_of(substance=name, temperature=warm.value)
        share = float(vapour_fraction(vapour_pressure=vapour.pressure, pressure=NORMAL_PRESSURE))
        molar_mass = viscosities_of(first_name(name)).molar_mass
    except AppError as error:
        faults.append(error.at("solvent"))
        return None
    if share >= ALL_VAPOUR:
        faults.append(
            OutOfBounds(
                "the solvent as good as boils", where="liquid_temperature",
                got=str(texts["liquid_temperature"]), fix="Take a colder bath.",
            )
        )  # fmt: skip
        return None
    u = share * float(vapour.spread)
    fraction = Measured(share, u, "vapour", Kind.MOLE_FRACTION, basis="published")
    return Wet(first_name(name), fraction, molar_mass)


def _falling(
    texts: Mapping[str, str | None], read: Mapping[str, Measured], faults: list[AppError]
) -> Falling | None:
    """Return how a typed output falls; None where nobody says."""
    coefficient, said = read.get("temperature_coefficient"), texts.get("output_at") or None
    if coefficient is None:
        return None
    if "output" not in read:
        faults.append(
            MissingValue(
                "the coefficient is of an output, and none is given",
                where="output", fix='Type it: "0.62 g/h".',
            )
        )  # fmt: skip
    if said is None:
        faults.append(
            MissingValue(
                "how warm was the tube when it gave this output?", where="output_at",
                fix='Write its temperature, such as "55 °C", or cold, or warm for a tube that had '
                "run on.",
            )
        )  # fmt: skip
        return None
    at: Any = said if said in STATES else read.get("output_at")
    return None if at is None else Falling(coefficient, at)


def _twice(name: str, what: str) -> AppError:
    return Inconsistent(
        f"{what} tells this too",
        where=name,
        fix="Leave out one of the two.",
    )


def _fitted(
    texts: Mapping[str, str | None], notebook: Notebook | None, faults: list[AppError]
) -> Bodies | None:
    place = "log" if texts.get("log") else "readings"
    try:
        return fitted_bodies(_log(texts, notebook))
    except Faults as several:
        faults += [fault.at(place) for fault in several]
    except AppError as error:
        faults.append(error.at(place))
    return None


def _log(texts: Mapping[str, str | None], notebook: Notebook | None) -> TemperatureLog:
    if log := texts.get("log"):
        return read_temperature_log(log)
    label = str(texts["readings"])
    if notebook is None:
        raise MissingValue(
            "readings stand in a notebook, and none is given", got=label, fix="Add --notebook FILE."
        )
    return log_of_entries(notebook, label)


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


def output_course(result: Duty) -> list[tuple[float, float]] | None:
    """Return times and the output at each, from cold; None where it is taken as constant."""
    if not isinstance(result.rate_cold, Estimate):
        return None
    assert result.on is not None and result.off is not None  # noqa: PT018
    cold, steady = result.rate_cold.value, _value(result.rate_steady)
    times, shares = warming(result)
    points: list[tuple[float, float]] = []
    for time, share in zip(times, shares, strict=True):
        since = time % (result.on + result.off)
        rate = float(output_between(cold=cold, steady=steady, share=share))
        if since == 0.0:
            points.append((time, 0.0))
        points.append((time, rate if since <= result.on else 0.0))
        if since == result.on:
            points.append((time, 0.0))
    return points


def _value(one: Estimate | float | None) -> float:
    return one.value if isinstance(one, Estimate) else one or 0.0
