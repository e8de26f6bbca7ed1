"""What the answer has to say beside its figures."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.physics.gas.network.mixing import Mixture
from ozonewright.physics.gas.parts.amounts import volume_flow
from ozonewright.physics.gas.parts.bed import breakthrough_time
from ozonewright.physics.gas.parts.tube import reynolds_number
from ozonewright.questions.gas_line.gaps import of_part
from ozonewright.questions.gas_line.meter import true_flow
from ozonewright.questions.gas_line.model import Point, Solved
from ozonewright.questions.gas_line.shape import BOTTLES
from ozonewright.records.rig import Part
from ozonewright.references.constants import M_H2O
from ozonewright.results import Note

TRANSITION = (2040.0, 4000.0)
"""Reynolds numbers between which no law of friction holds."""
LOSSLESS = {
    "cracking": "check valve",
    "bore": "sparger",
    "drop": "rotameter",
    "passes": "needle valve",
    "grain": "bed",
    "depth": "bottle",
    "density": "bottle",
}
"""Fields whose absence counts as no loss."""


def notes(found: Solved, path: tuple[list[Part], Part, Part] | None) -> Iterator[Note]:
    """Yield what was taken for granted, and what looks odd."""
    yield from _taken(found)
    yield from _legs(found)
    yield from _friction(found)
    yield from _meters(found)
    yield from _drying(found)
    if path is not None and path[1].kind != "discharge tube":
        yield Note("gas-line-hold-up-from", "advice", {"supplier": path[1].name})


def _taken(found: Solved) -> Iterator[Note]:
    ambient = found.rig.ambient
    if ambient.temperature is None or ambient.pressure is None:
        yield Note(
            "gas-line-room-taken",
            values={"temperature": found.room.temperature, "pressure": found.room.pressure},
        )
    missing = [
        place
        for part in found.rig.parts
        for place in of_part(part)
        if place.rpartition(".")[2] in LOSSLESS
    ]
    if missing:
        yield Note("gas-line-lossless", values={"places": ", ".join(missing)})
    ends = [leg.last for leg in found.shape.legs if leg.tail is None]
    open_ends = [
        part.name for part in ends if part is not None and part.kind in (*BOTTLES, "destruct")
    ]
    if open_ends:
        yield Note("gas-line-open-end", "advice", {"parts": ", ".join(open_ends)})


def _legs(found: Solved) -> Iterator[Note]:
    for name, count in found.shape.unused.items():
        yield Note("gas-line-unused-outlet", "advice", {"pump": name, "count": count})
    fed = [leg for leg in found.shape.legs if leg.supplier and leg.tail]
    flows = {id(leg): flow for leg, flow in zip(found.shape.legs, found.flows, strict=True)}
    for junction in found.shape.junctions:
        legs = [leg for leg in fed if leg.tail == junction]
        if len(legs) > 1:
            silent = [leg.last.name for leg in legs if leg.last and flows[id(leg)] == 0.0]
            yield Note(
                "gas-line-joined",
                "doubt" if silent else "advice",
                {"junction": junction, "count": len(legs), "silent": ", ".join(silent)},
            )


def _friction(found: Solved) -> Iterator[Note]:
    for point in found.points:
        if point.part.kind not in ("tube", "connector") or point.flow <= 0.0:
            continue
        reynolds = reynolds_number(
            flow=point.flow, bore=point.part.quantities["bore"].value, gas=point.gas
        )
        if TRANSITION[0] < reynolds < TRANSITION[1]:
            yield Note(
                "gas-line-transition", values={"part": point.part.name, "reynolds": reynolds}
            )


def _meters(found: Solved) -> Iterator[Note]:
    for point in found.points:
        true = true_flow(point, found.room)
        if true is not None:
            yield Note(
                "gas-line-rotameter",
                "advice",
                {
                    "part": point.part.name,
                    "reading": point.part.quantities["reading"].value,
                    "true": true,
                    "model": volume_flow(flow=point.flow, pressure=point.inlet, gas=point.gas),
                },
            )


def _drying(found: Solved) -> Iterator[Note]:
    for point in found.points:
        mass, capacity = point.part.value("mass"), point.part.value("capacity")
        if point.part.kind != "desiccant column" or mass is None or capacity is None:
            continue
        taken = _before(found, point).water - point.mixture.water
        if point.flow > 0.0 and taken > 0.0:
            water = point.flow * taken * M_H2O
            time = breakthrough_time(mass=mass, capacity=capacity, water_flow=water)
            yield Note("gas-line-desiccant", "advice", {"part": point.part.name, "time": time})


def _before(found: Solved, point: Point) -> Mixture:
    """Return what enters a part."""
    leg = [one for one in found.points if one.leg == point.leg]
    place = leg.index(point)
    return leg[place - 1].mixture if place else found.heads[point.leg]
