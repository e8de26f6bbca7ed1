"""The answer to a rig: flow, pressures, bottleneck, what to change, what can go wrong."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.physics.gas.network.mixing import gas_of, mixed
from ozonewright.physics.gas.parts.amounts import volume_flow
from ozonewright.physics.gas.parts.threshold import static_head
from ozonewright.questions.gas_line.changes import (
    UNLIMITED,
    changed,
    changes,
    flow_without,
    little_more,
    losing,
)
from ozonewright.questions.gas_line.direction import (
    blocked_pressure,
    bottles_of,
    direction_notes,
    suck_back,
)
from ozonewright.questions.gas_line.gaps import unknowns
from ozonewright.questions.gas_line.judge import notes
from ozonewright.questions.gas_line.laws import density_of
from ozonewright.questions.gas_line.model import Solved, solved, with_part
from ozonewright.questions.gas_line.result import ChangeRow, GasLine, PartRow
from ozonewright.questions.gas_line.shape import SUPPLIERS
from ozonewright.questions.gas_line.volumes import hold_up, path_to_liquid, time_through
from ozonewright.records.rig import Part, Rig
from ozonewright.results import Note
from ozonewright.units import Kind, number

SOURCES = ("fluids_library", "shapiro_1953", "bell_2014", "herning_1936", "din_1990")
ROUNDING = 1e-6
"""Share of the flow below which a change is none."""


def gas_line(rig: Rig) -> GasLine:
    """Return what flows through a rig, and what to change.

    Raises
    ------
    Faults
        No supplier, no vent, a branch that nothing feeds.
    NotConverged
        The flows were not found.
    """
    found = solved(rig)
    flow = found.delivered
    unlimited = flow > UNLIMITED
    bottleneck, without = (None, None) if unlimited else _bottleneck(found)
    path = path_to_liquid(rig)
    bottles = bottles_of(rig)
    tubes = rig.of_kind("discharge tube")
    return GasLine(
        label=rig.label,
        flow_ambient=None if unlimited else _ambient(found, flow),
        flow=None if unlimited else flow,
        supplied=None if unlimited else sum(_given(found).values()),
        pressure=_highest(found) - found.room.pressure,
        largest_loss=_largest_loss(found),
        bottleneck=bottleneck,
        bottleneck_flow=without,
        parts=tuple(_rows(found)),
        sensitivities=() if unlimited or not flow else tuple(_sensitivities(found)),
        what_if=() if unlimited else tuple(_what_if(found)),
        hold_up=None if path is None else hold_up(path[0]),
        hold_up_time=None if path is None else time_through(found, path[0]),
        residence=time_through(found, tubes) if tubes else None,
        blocked_pressure=blocked_pressure(found) - found.room.pressure,
        suck_back=suck_back(rig, found.room, bottles[0]) if bottles else None,
        residual=found.solution.imbalance,
        notes=(*_none(found), *notes(found, path), *direction_notes(found)),
        unknowns=tuple(unknowns(rig)),
        sources=SOURCES,
        methods=(
            "isothermal flow of an ideal gas; friction by 64/Re and Colebrook's equation",
            "normal litre: 22.41397 L/mol of dry gas at 0 °C and 101.325 kPa",
        ),
    )


def _ambient(found: Solved, flow: float) -> float:
    """Return a flow of what the suppliers give as a volume at the room's conditions."""
    room = found.room
    supplied = [
        (given, head)
        for leg, given, head in zip(found.shape.legs, found.flows, found.heads, strict=True)
        if leg.supplier and given > 0.0
    ]
    if not supplied:
        return 0.0
    mixture = mixed(flows=[given for given, _ in supplied], mixtures=[head for _, head in supplied])
    gas = gas_of(mixture=mixture, temperature=room.temperature)
    return volume_flow(flow=flow, pressure=room.pressure, gas=gas)


def _given(found: Solved) -> dict[str, float]:
    """Return what each supplier gives."""
    given: dict[str, float] = {}
    for leg, flow in zip(found.shape.legs, found.flows, strict=True):
        if leg.supplier:
            given[leg.supplier.name] = given.get(leg.supplier.name, 0.0) + flow
    return given


def _highest(found: Solved) -> float:
    return max((point.inlet for point in found.points), default=found.room.pressure)


def _rows(found: Solved) -> Iterator[PartRow]:
    room, span = found.room, _highest(found) - found.room.pressure
    given = _given(found)
    for part in found.rig.parts:
        point = found.point(part.name)
        if point is not None:
            drop = point.inlet - point.outlet
            yield PartRow(
                name=part.name,
                kind=part.kind,
                flow=point.flow,
                inlet=point.inlet - room.pressure,
                drop=drop,
                share=drop / span if span > 0.0 else None,
                after=list(part.after),
            )
        elif part.kind in SUPPLIERS:
            rise = _outlet(found, part) - room.pressure
            yield PartRow(
                name=part.name,
                kind=part.kind,
                flow=given.get(part.name, 0.0),
                inlet=0.0 if part.kind == "pump" else None,
                drop=-rise if part.kind == "pump" else None,
                after=[],
            )
        else:
            place = found.shape.junctions.index(part.name)
            pressure = found.solution.pressures[place] - room.pressure
            into = sum(
                abs(flow)
                for leg, flow in zip(found.shape.legs, found.flows, strict=True)
                if (leg.tail == part.name and flow > 0.0) or (leg.head == part.name and flow < 0.0)
            )
            yield PartRow(
                name=part.name, kind=part.kind, flow=into, inlet=pressure, drop=0.0, share=0.0,
                after=list(part.after),
            )  # fmt: skip


def _outlet(found: Solved, supplier: Part) -> float:
    """Return the highest pressure at an outlet of a supplier."""
    supply = found.supplies[supplier.name]
    return max(
        supply.outlet(flow, found.room.gas)
        for leg, flow in zip(found.shape.legs, found.flows, strict=True)
        if leg.supplier is supplier
    )


def _largest_loss(found: Solved) -> str | None:
    drops = {p.part.name: p.inlet - p.outlet for p in found.points if p.part.kind != "leak"}
    if not drops or max(drops.values()) <= 0.0:
        return None
    return max(drops, key=lambda name: drops[name])


def _bottleneck(found: Solved) -> tuple[str | None, float | None]:
    """Return the part whose loss, if removed, adds most flow, and the flow then."""
    flows = {name: flow_without(found, name) for name in losing(found)}
    best = max(flows, key=lambda name: flows[name], default=None)
    if best is None or flows[best] <= found.delivered * (1.0 + ROUNDING):
        return None, None
    return best, flows[best] if flows[best] < UNLIMITED else None


def _row(found: Solved, change: str, other: Solved) -> ChangeRow:
    flow = other.delivered
    gain = flow / found.delivered - 1.0 if found.delivered else None
    return ChangeRow(change=change, flow=flow, flow_ambient=_ambient(other, flow), gain=gain)


def _what_if(found: Solved) -> list[ChangeRow]:
    tried = [(words, changed(rig, found)) for words, rig in (*changes(found), *_shallower(found))]
    better = [
        _row(found, words, other)
        for words, other in tried
        if other is not None and other.delivered > found.delivered * (1.0 + ROUNDING)
    ]
    return sorted(better, key=lambda row: -(row.flow or 0.0))


def _sensitivities(found: Solved) -> Iterator[ChangeRow]:
    for words, rig in little_more(found):
        if (other := changed(rig, found)) is not None:
            yield _row(found, words, other)


def _none(found: Solved) -> Iterator[Note]:
    """Yield why nothing flows, and which depth would let it."""
    if found.delivered > UNLIMITED:
        yield Note("gas-line-unlimited", "wrong")
    if found.delivered > 0.0:
        return
    bottles = [part for part in bottles_of(found.rig) if part.value("depth")]
    deepest = max(bottles, key=lambda part: part.value("depth") or 0.0, default=None)
    if deepest is None:
        yield Note("gas-line-no-flow", "wrong", {"bottle": None, "depth": None, "works": None})
        return
    yield Note(
        "gas-line-no-flow",
        "wrong",
        {
            "bottle": deepest.name,
            "depth": deepest.value("depth"),
            "works": _depth_that_works(found, deepest),
        },
    )


def _shallower(found: Solved) -> Iterator[tuple[str, Rig]]:
    """Yield the depth that leaves half of the pressure to drive the gas, where nothing flows."""
    for note in _none(found):
        works = note.values.get("works")
        if works is not None:
            name, depth = note.values["bottle"], 0.5 * works
            words = f"{name}: {number(depth, Kind.LENGTH, 'cm'):.2g} cm deep"
            yield words, with_part(found.rig, name, depth=depth)


def _depth_that_works(found: Solved, bottle: Part) -> float | None:
    """Return the depth at which gas begins to come through, or None where no depth lets it."""
    dry = solved(with_part(found.rig, bottle.name, depth=0.0))
    if dry.delivered <= 0.0:
        return None
    density = density_of(bottle, found.room)
    assert density is not None
    blocked = found.point(bottle.name)
    assert blocked is not None
    spare = blocked.inlet - found.room.pressure
    return spare / float(static_head(density=density, depth=1.0))
