"""A rig as a network, solved: what flows through each part and which pressures stand before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ozonewright.physics.gas.network import Branch, Network, Solution, solve
from ozonewright.physics.gas.network.mixing import Mixture, gas_of, mixed, water_ratio
from ozonewright.physics.gas.parts.law import Gas, Law
from ozonewright.physics.gas.parts.supply import Held, Supply
from ozonewright.questions.gas_line.laws import law_of, liquid_of, supply_of, temperature_of
from ozonewright.questions.gas_line.room import Room, room_of, supplied
from ozonewright.questions.gas_line.shape import BOTTLES, Leg, Shape, shape_of
from ozonewright.records.rig import Part, Rig

GUESS = 1e-3
"""About 1.3 L/min, the middle of what a bench lets flow. [mol/s]"""
SAME = 1e-9
"""Share of its water or its gases by which a mixture may still change."""
SWEEPS = 12


@dataclass(frozen=True, slots=True)
class Point:
    """A part with what flows through it."""

    part: Part
    flow: float
    """Dry gas, positive in flow order. [mol/s]"""
    inlet: float
    """Absolute pressure before it. [Pa]"""
    outlet: float
    mixture: Mixture
    gas: Gas
    leg: int


@dataclass(frozen=True, slots=True)
class Solved:
    """A rig with its flows and pressures."""

    rig: Rig
    room: Room
    shape: Shape
    flows: tuple[float, ...]
    """Of each leg. [mol/s]"""
    points: tuple[Point, ...]
    """Every part that stands in a leg, in the order of the legs."""
    heads: tuple[Mixture, ...]
    """What enters each leg."""
    supplies: Mapping[str, Supply]
    solution: Solution

    @property
    def delivered(self) -> float:
        """Dry gas that leaves by every end but a leak. [mol/s]"""
        return sum(
            flow
            for leg, flow in zip(self.shape.legs, self.flows, strict=True)
            if leg.tail is None and leg.last is not None and leg.last.kind != "leak"
        )

    def point(self, name: str) -> Point | None:
        """Return a part by name; suppliers and tees stand in no leg."""
        return next((point for point in self.points if point.part.name == name), None)


def solved(
    rig: Rig, *, without: frozenset[str] = frozenset(), start: Sequence[float] | None = None
) -> Solved:
    """Return the flows of a rig, perhaps without the loss of some parts.

    Raises
    ------
    Faults
        The parts do not make a gas line.
    NotConverged
        No solution was found.
    """
    room, shape = room_of(rig), shape_of(rig)
    supplies = {
        part.name: _supply(part, room, without)
        for part in rig.parts
        if part.kind in ("pump", "cylinder", "concentrator")
    }
    legs = [_laws(leg, room, without) for leg in shape.legs]
    heads = [
        room.air if leg.supplier is None else supplied(leg.supplier, room) for leg in shape.legs
    ]
    mixtures = [_along(leg, head, room, None) for leg, head in zip(shape.legs, heads, strict=True)]
    state = start
    for _ in range(SWEEPS):
        branches = _branches(shape, legs, mixtures, heads, supplies, room)
        found = solve(
            network=Network(branches, len(shape.junctions), GUESS, room.pressure), start=state
        )
        pressures = [
            _pressures(branch, flow, found.pressures)
            for branch, flow in zip(branches, found.flows, strict=True)
        ]
        newer, heads = _mixtures(shape, found.flows, pressures, heads, room)
        same = _alike(mixtures, newer)
        mixtures, state = newer, found.state
        if same:
            break
    points = tuple(
        Point(part, flow, *ends, mixture, gas_of_part(part, mixture, room), number)
        for number, (leg, flow) in enumerate(zip(shape.legs, found.flows, strict=True))
        for part, ends, mixture in zip(
            leg.parts, _of_parts(legs[number], pressures[number]), mixtures[number], strict=True
        )
    )
    return Solved(rig, room, shape, found.flows, points, tuple(heads), supplies, found)


def _supply(part: Part, room: Room, without: frozenset[str]) -> Supply:
    supply = supply_of(part, room)
    if part.name in without and supply.most == float("inf"):
        return Held(supply.shut_off)
    return supply


def _laws(leg: Leg, room: Room, without: frozenset[str]) -> list[Law | None]:
    return [
        None if part.name in without else law_of(part, room, _bottle_behind(leg.parts, number))
        for number, part in enumerate(leg.parts)
    ]


def _bottle_behind(parts: Sequence[Part], number: int) -> Part | None:
    return next((part for part in parts[number + 1 :] if part.kind in BOTTLES), None)


def gas_of_part(part: Part, mixture: Mixture, room: Room) -> Gas:
    """Return the gas in a part at its temperature."""
    return gas_of(mixture=mixture, temperature=temperature_of(part, room))


def _branches(
    shape: Shape,
    laws: Sequence[Sequence[Law | None]],
    mixtures: Sequence[Sequence[Mixture]],
    heads: Sequence[Mixture],
    supplies: Mapping[str, Supply],
    room: Room,
) -> list[Branch]:
    number = {name: place for place, name in enumerate(shape.junctions)}
    found = []
    for leg, own, inside, head in zip(shape.legs, laws, mixtures, heads, strict=True):
        kept = [
            (law, gas_of_part(part, mixture, room))
            for part, law, mixture in zip(leg.parts, own, inside, strict=True)
            if law is not None
        ]
        found.append(
            Branch(
                laws=tuple(law for law, _ in kept),
                gases=tuple(gas for _, gas in kept),
                tail=_end(leg, room) if leg.tail is None else number[leg.tail],
                head=supplies[leg.supplier.name] if leg.supplier else number[leg.head or ""],
                head_gas=gas_of(mixture=head, temperature=room.temperature),
                shut=_shut(leg),
            )
        )
    return found


def _end(leg: Leg, room: Room) -> float:
    last = leg.last
    gauge = last.value("pressure") if last is not None and last.kind == "vent" else None
    return room.pressure + (gauge or 0.0)


def _shut(leg: Leg) -> bool:
    return any(
        part.kind == "cap" or part.words.get("direction") == "reversed" for part in leg.parts
    )


def _pressures(branch: Branch, flow: float, junctions: Sequence[float]) -> list[float]:
    """Return the pressures before each law and behind the last."""
    tail = junctions[branch.tail] if isinstance(branch.tail, int) else branch.tail
    if isinstance(branch.head, int):
        head = junctions[branch.head]
    elif isinstance(branch.head, float):
        head = branch.head
    else:
        head = branch.head.outlet(flow, branch.head_gas)
    if flow > 0.0:
        return _under_flow(branch, flow, head, tail)
    if flow < 0.0:
        found = [head]
        for law, gas in zip(branch.laws, branch.gases, strict=True):
            found.append(law.inlet(-flow, found[-1], gas))
        return found
    return _at_rest(branch, head, tail)


def _under_flow(branch: Branch, flow: float, head: float, tail: float) -> list[float]:
    found = [tail]
    for law, gas in zip(reversed(branch.laws), reversed(branch.gases), strict=True):
        found.append(law.inlet(flow, found[-1], gas))
    found.reverse()
    left = head - found[0]
    holding = [number for number, law in enumerate(branch.laws) if law.most <= flow * (1.0 + SAME)]
    # What a flow controller takes beyond its least loss stands before it.
    for place in range(holding[0] + 1 if holding else 0):
        found[place] += left
    return found


def _at_rest(branch: Branch, head: float, tail: float) -> list[float]:
    """Return pressures where nothing flows: what opens at a pressure holds what it can."""
    found = [head]
    for law, gas in zip(branch.laws, branch.gases, strict=True):
        opening = law.inlet(0.0, tail, gas) - tail
        left = max(found[-1] - tail, 0.0)
        found.append(found[-1] - min(opening, left))
    return found


def _of_parts(laws: Sequence[Law | None], pressures: Sequence[float]) -> list[tuple[float, float]]:
    found, place = [], 0
    for law in laws:
        behind = place if law is None else place + 1
        found.append((pressures[place], pressures[behind]))
        place = behind
    return found


def _mixtures(
    shape: Shape,
    flows: Sequence[float],
    pressures: Sequence[Sequence[float]],
    heads: Sequence[Mixture],
    room: Room,
) -> tuple[list[list[Mixture]], list[Mixture]]:
    """Return the mixture in every part and at the head of every leg, for these flows."""
    heads = list(heads)
    for _ in range(len(shape.junctions) + 1):
        inside = [
            _along(leg, head, room, own[-1] if own else None)
            for leg, head, own in zip(shape.legs, heads, pressures, strict=True)
        ]
        ends = [
            _leaving(leg, own, head)
            for leg, own, head in zip(shape.legs, inside, heads, strict=True)
        ]
        heads = [
            head if leg.head is None else _at(leg.head, shape, flows, ends, head)
            for leg, head in zip(shape.legs, heads, strict=True)
        ]
    return inside, heads


def _leaving(leg: Leg, inside: Sequence[Mixture], head: Mixture) -> Mixture:
    return inside[-1] if inside else head


def _at(
    junction: str, shape: Shape, flows: Sequence[float], ends: Sequence[Mixture], now: Mixture
) -> Mixture:
    into = [
        (flow, end)
        for leg, flow, end in zip(shape.legs, flows, ends, strict=True)
        if leg.tail == junction and flow > 0.0
    ]
    if not into:
        return now
    return mixed(flows=[flow for flow, _ in into], mixtures=[end for _, end in into])


def _along(leg: Leg, head: Mixture, room: Room, pressure: float | None) -> list[Mixture]:
    """Return the mixture behind each part of a leg: water wets it, a desiccant dries it."""
    found, here = [], head
    at = room.pressure if pressure is None else pressure
    for part in leg.parts:
        known = liquid_of(part) if part.kind in BOTTLES else None
        if known is not None and known.name == "water":
            wet = water_ratio(temperature=temperature_of(part, room), pressure=at)
            here = here._replace(water=wet)
        dry = part.value("dew_point") if part.kind == "desiccant column" else None
        if dry is not None:
            here = here._replace(water=water_ratio(temperature=dry, pressure=at))
        found.append(here)
    return found


def _alike(one: Sequence[Sequence[Mixture]], other: Sequence[Sequence[Mixture]]) -> bool:
    return all(
        abs(x - y) <= SAME
        for before, after in zip(one, other, strict=True)
        for mixture, newer in zip(before, after, strict=True)
        for x, y in zip(mixture, newer, strict=True)
    )


def with_part(rig: Rig, name: str, **quantities: float) -> Rig:
    """Return a rig in which some quantities of one part have other values."""
    return replace(
        rig,
        parts=tuple(
            replace(
                part,
                quantities={
                    **part.quantities,
                    **{
                        field: replace(part.quantities[field], value=value, u=0.0)
                        for field, value in quantities.items()
                    },
                },
            )
            if part.name == name
            else part
            for part in rig.parts
        ),
    )
