"""What a flow meter really says: a float drawn for another gas, gas that displaces water."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.physics import Real
from ozonewright.physics.gas.flow import mean_molar_mass, molar_flow, rotameter_flow
from ozonewright.physics.gas.water import saturation_pressure_water, water_fraction
from ozonewright.questions.gas_line.model import Point
from ozonewright.questions.gas_line.room import USUAL_TEMPERATURE, Room
from ozonewright.records.run import Feed
from ozonewright.references.constants import NORMAL_PRESSURE
from ozonewright.references.gases import MOLAR_MASS
from ozonewright.results import Note, Result, fact, quantity
from ozonewright.uncertain import Estimate, Measured, propagate
from ozonewright.units import Kind


@dataclass(frozen=True, kw_only=True)
class Meter(Result):
    """A flow as read, as it is, and as dry normal litres."""

    kind: str = fact("meter", "")
    flow: Estimate | None = quantity(
        Kind.VOLUME_FLOW, "L/min", "flow at the meter's temperature and pressure", stem="flow"
    )
    normal: Estimate | None = quantity(Kind.NORMAL_FLOW, "NL/min", "dry gas", stem="flow")
    factor: Estimate | None = quantity(
        Kind.DIMENSIONLESS, "", "true flow over reading", stem="factor"
    )
    water: Estimate | None = quantity(Kind.SHARE, "%", "water vapour in the gas", stem="water")


@dataclass(frozen=True, slots=True)
class Conditions:
    """Temperature and pressure at a meter."""

    temperature: Measured
    pressure: Measured


def true_flow(point: Point, room: Room) -> float | None:
    """Return what the float of a rig's rotameter says of this gas, or None without a reading."""
    part = point.part
    reading = part.quantities.get("reading")
    if part.kind != "rotameter" or reading is None or reading.kind is not Kind.VOLUME_FLOW:
        return None
    scale_temperature = part.value("calibrated_temperature")
    scale_pressure = part.value("calibrated_pressure")
    if scale_pressure is not None and part.gauge.get("calibrated_pressure"):
        scale_pressure += room.pressure
    return float(
        rotameter_flow(
            reading=reading.value,
            calibrated_molar_mass=MOLAR_MASS[part.words["calibrated_for"]],
            calibrated_temperature=scale_temperature or USUAL_TEMPERATURE,
            calibrated_pressure=scale_pressure or NORMAL_PRESSURE,
            molar_mass=point.gas.molar_mass,
            temperature=point.gas.temperature,
            pressure=point.inlet,
        )
    )


def float_reading(reading: Measured, scale: str, gas: Feed, conditions: Conditions) -> Meter:
    """Return the true flow of a gas through a rotameter whose scale is for another gas."""
    names = list(gas.parts)
    inputs = {
        "reading": reading,
        "temperature": conditions.temperature,
        "pressure": conditions.pressure,
        **{name: gas.parts[name] for name in names},
    }

    def flow(reading: Real, temperature: Real, pressure: Real, **parts: Real) -> Real:
        return rotameter_flow(
            reading=reading,
            calibrated_molar_mass=MOLAR_MASS[scale],
            calibrated_temperature=USUAL_TEMPERATURE,
            calibrated_pressure=NORMAL_PRESSURE,
            molar_mass=mean_molar_mass(
                fractions=[parts[name] for name in names],
                molar_masses=[MOLAR_MASS[name] for name in names],
            ),
            temperature=temperature,
            pressure=pressure,
        )

    def normal(reading: Real, temperature: Real, pressure: Real, **parts: Real) -> Real:
        return molar_flow(
            volume_flow=flow(reading, temperature, pressure, **parts),
            temperature=temperature,
            pressure=pressure,
            water_fraction=0.0,
        )

    def factor(reading: Real, temperature: Real, pressure: Real, **parts: Real) -> Real:
        return flow(reading, temperature, pressure, **parts) / reading

    return Meter(
        kind="rotameter",
        flow=propagate(flow, inputs),
        normal=propagate(normal, inputs),
        factor=propagate(factor, inputs),
        notes=(Note("gas-line-meter-float", "advice", {"scale": scale}),),
        sources=("unnamed_rotameter_table", "din_1990"),
        methods=("the float weighs the same in every gas, so flow goes with 1/sqrt(density)",),
    )


def displaced(volume: Measured, time: Measured, conditions: Conditions) -> Meter:
    """Return the flow of a gas that displaces water: it leaves saturated with vapour."""
    inputs = {
        "volume": volume,
        "time": time,
        "temperature": conditions.temperature,
        "pressure": conditions.pressure,
    }

    def flow(volume: Real, time: Real, temperature: Real, pressure: Real) -> Real:
        return volume / time

    def water(volume: Real, time: Real, temperature: Real, pressure: Real) -> Real:
        vapour = saturation_pressure_water(temperature=temperature)
        return water_fraction(water_pressure=vapour, pressure=pressure)

    def normal(volume: Real, time: Real, temperature: Real, pressure: Real) -> Real:
        return molar_flow(
            volume_flow=volume / time,
            temperature=temperature,
            pressure=pressure,
            water_fraction=water(volume, time, temperature, pressure),
        )

    return Meter(
        kind="displacement",
        flow=propagate(flow, inputs),
        normal=propagate(normal, inputs),
        water=propagate(water, inputs),
        notes=(Note("gas-line-meter-wet", "advice"),),
        sources=("wagner_2002", "din_1990"),
        methods=("dry gas = (p - vapour pressure of water) V/(R T t)",),
    )
