"""From a part as recorded to its law of pressure. A new kind is one function and one line."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.errors import DataError, Inconsistent
from ozonewright.physics.gas.parts.amounts import volume_flow
from ozonewright.physics.gas.parts.annulus import Annulus
from ozonewright.physics.gas.parts.bed import VOID, Bed
from ozonewright.physics.gas.parts.controller import Controller
from ozonewright.physics.gas.parts.law import Law
from ozonewright.physics.gas.parts.reading import (
    Porous,
    linear_of_reading,
    quadratic_of_reading,
)
from ozonewright.physics.gas.parts.supply import Held, Pump, Supply, ThroughValve, falling
from ozonewright.physics.gas.parts.threshold import Threshold, bubble_point, static_head
from ozonewright.physics.gas.parts.tube import ENDS, SMOOTH, Tube
from ozonewright.physics.gas.parts.valve import (
    CRITICAL,
    NOZZLE,
    Valve,
    conductance_of_hole,
    conductance_of_reading,
)
from ozonewright.questions.gas_line.room import Room
from ozonewright.records.rig import Part
from ozonewright.references.liquid_surface import DENSITY_AT, SURFACE_AT, Liquid, liquid
from ozonewright.uncertain import Measured
from ozonewright.units import Kind, number, size

DIAL_PRESSURE = 300.0 * size(Kind.PRESSURE_DIFFERENCE, "kPa")
"""What stands behind a regulator with a flow dial (common practice: 3 to 4 bar)."""


def law_of(part: Part, room: Room, bottle: Part | None) -> Law | None:
    """Return the law of a part, or None where gas loses no pressure in it.

    A sparger needs to know the bottle that it bubbles into.
    """
    make = LAWS.get(part.kind)
    return None if make is None else make(part, room, bottle)


def supply_of(part: Part, room: Room) -> Supply:
    """Return what a supplier holds at one outlet."""
    if part.kind == "pump":
        share = 1.0 if part.words.get("flow_of") != "all outlets" else 1.0 / part.counts["outlets"]
        points = [(p.value, share * _taken_in(q, room)) for p, q in part.curve]
        if not points:
            free = share * _taken_in(part.quantities["free_flow"], room)
            points = [(0.0, free), (part.quantities["shut_off"].value, 0.0)]
        return Pump(falling(curve=tuple(points)), room.pressure, room.temperature)
    if part.kind == "concentrator":
        return ThroughValve(
            room.pressure + part.quantities["shut_off"].value,
            room.molar(part.quantities["flow"]),
            room.pressure,
        )
    left = cylinder_pressure(part, room)
    if (flow := part.quantities.get("flow")) is not None:
        behind = room.pressure + DIAL_PRESSURE
        return Held(behind if left is None else min(left, behind), room.molar(flow))
    wanted = room.pressure + part.quantities["regulator"].value
    return Held(wanted if left is None else min(left, wanted))


def cylinder_pressure(part: Part, room: Room) -> float | None:
    """Return the absolute pressure in a cylinder, or None where it was not stated."""
    stated = part.value("pressure")
    if stated is None:
        return None
    return stated + room.pressure if part.gauge.get("pressure") else stated


def _taken_in(flow: Measured, room: Room) -> float:
    """Return a flow as the volume that a pump takes in from the room."""
    if flow.kind is Kind.VOLUME_FLOW:
        return flow.value
    return volume_flow(flow=flow.value, pressure=room.pressure, gas=room.gas)


def density_of(part: Part, room: Room) -> float | None:
    """Return the density of the liquid in a bottle at its temperature."""
    if (stated := part.value("density")) is not None:
        return stated
    if (known := liquid_of(part)) is None:
        return None
    warmer = temperature_of(part, room) - DENSITY_AT
    return known.density + known.density_slope * warmer


def liquid_of(part: Part) -> Liquid | None:
    """Return the figures of the liquid in a bottle, or None where it was not named."""
    name = part.words.get("liquid")
    if name is None:
        return None
    try:
        return liquid(name)
    except DataError as error:
        if part.value("density") is not None:
            return None
        raise error.at(f"{part.place}.liquid") from error


def temperature_of(part: Part, room: Room) -> float:
    """Return the temperature of what is in a part."""
    stated = part.value("temperature")
    return room.temperature if stated is None else stated


def opening_of(part: Part, room: Room, bottle: Part | None) -> float | None:
    """Return the pressure at which a sparger opens, or None where nothing tells it."""
    if (stated := part.value("bubble_point")) is not None:
        return stated
    pore = part.value("pore") or part.value("bore")
    if pore is None:
        return None
    known = liquid_of(bottle) if bottle is not None else None
    if known is None or bottle is None:
        return None
    warmer = temperature_of(bottle, room) - SURFACE_AT
    tension = known.surface_tension + known.surface_slope * warmer
    return float(bubble_point(surface_tension=tension, pore=pore))


def _tube(part: Part, room: Room, bottle: Part | None) -> Law:
    return Tube(
        bore=part.quantities["bore"].value,
        length=part.quantities["length"].value,
        roughness=_or(part.value("roughness"), SMOOTH),
        bends=part.counts["bends"],
    )


def _connector(part: Part, room: Room, bottle: Part | None) -> Law:
    length = _or(part.value("length"), 0.0)
    return Tube(bore=part.quantities["bore"].value, length=length, ends=ENDS)


def _discharge_tube(part: Part, room: Room, bottle: Part | None) -> Law:
    bore, length = part.quantities["bore"].value, part.quantities["length"].value
    gap = part.value("gap")
    return Tube(bore, length) if gap is None else Annulus(bore, gap, length)


def _needle_valve(part: Part, room: Room, bottle: Part | None) -> Law | None:
    conductance = _conductance(part, room, CRITICAL)
    return None if conductance is None else Valve(conductance)


def _leak(part: Part, room: Room, bottle: Part | None) -> Law:
    bore = part.value("bore")
    hole = _conductance(part, room, NOZZLE) if bore is None else conductance_of_hole(bore=bore)
    assert hole is not None
    return Valve(hole, NOZZLE)


def _conductance(part: Part, room: Room, critical: float) -> float | None:
    passes = part.quantities.get("passes")
    if passes is None:
        return None
    return conductance_of_reading(
        flow=room.molar(passes),
        inlet_pressure=room.pressure + part.quantities["at"].value,
        outlet_pressure=room.pressure,
        critical_ratio=critical,
        gas=room.gas,
    )


def _flow_controller(part: Part, room: Room, bottle: Part | None) -> Law:
    return Controller(room.molar(part.quantities["flow"]), _or(part.value("least_drop"), 0.0))


def _rotameter(part: Part, room: Room, bottle: Part | None) -> Law | None:
    drop = part.value("drop")
    return None if drop is None else Threshold(drop)


def _check_valve(part: Part, room: Room, bottle: Part | None) -> Law:
    cracking = _or(part.value("cracking"), 0.0)
    passes = part.quantities.get("passes")
    if passes is None:
        return Threshold(cracking)
    more = quadratic_of_reading(
        flow=room.molar(passes),
        loss=part.quantities["at"].value - cracking,
        pressure=room.pressure,
        gas=room.gas,
    )
    return Threshold(cracking, quadratic=more)


def _sparger(part: Part, room: Room, bottle: Part | None) -> Law:
    opening = _or(opening_of(part, room, bottle), 0.0)
    passes = part.quantities.get("passes")
    if passes is None:
        return Threshold(opening)
    loss = part.quantities["at"].value - opening
    if loss <= 0.0:
        raise Inconsistent(
            "gas passes at a pressure below the opening pressure of its pore",
            where=f"{part.place}.at",
            got=f"{number(part.quantities['at'].value, Kind.PRESSURE, 'kPa'):.3g} kPa, opening at "
            f"{number(opening, Kind.PRESSURE, 'kPa'):.3g} kPa",
            fix="Give the bubble point as measured in place of the pore.",
        )
    more = linear_of_reading(
        flow=room.molar(passes), loss=loss, pressure=room.pressure, gas=room.gas
    )
    return Threshold(opening, linear=more)


def _bottle(part: Part, room: Room, bottle: Part | None) -> Law | None:
    depth, density = part.value("depth"), density_of(part, room)
    if depth is None or density is None:
        return Threshold(0.0) if depth is None or depth > 0.0 else None
    return Threshold(float(static_head(density=density, depth=depth))) if depth > 0.0 else None


def _bed(part: Part, room: Room, bottle: Part | None) -> Law | None:
    if (passes := part.quantities.get("passes")) is not None:
        resistance = linear_of_reading(
            flow=room.molar(passes),
            loss=part.quantities["at"].value,
            pressure=room.pressure,
            gas=room.gas,
        )
        return Porous(resistance)
    bore, length, grain = (part.value(name) for name in ("bore", "length", "grain"))
    if bore is None or length is None or grain is None:
        return None
    return Bed(bore, length, grain, _or(part.value("void"), VOID))


def _or(value: float | None, otherwise: float) -> float:
    return otherwise if value is None else value


LAWS: dict[str, Callable[[Part, Room, Part | None], Law | None]] = {
    "tube": _tube,
    "connector": _connector,
    "discharge tube": _discharge_tube,
    "needle valve": _needle_valve,
    "leak": _leak,
    "flow controller": _flow_controller,
    "rotameter": _rotameter,
    "check valve": _check_valve,
    "desiccant column": _bed,
    "destruct": _bed,
    "sparger": _sparger,
    "bottle": _bottle,
    "tail bottle": _bottle,
}
"""Kinds that are missing lose no pressure: tee, safety bottle, vent, cap."""
