"""What would change the flow: one part changed at a time, and the line solved again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ozonewright.errors import NotConverged
from ozonewright.questions.gas_line.model import Solved, solved, with_part
from ozonewright.questions.gas_line.shape import SUPPLIERS
from ozonewright.records.rig import Part, Rig
from ozonewright.units import Kind, number, size

CENTIMETRE = size(Kind.LENGTH, "cm")
MILLIMETRE = size(Kind.LENGTH, "mm")
BORES = tuple(MILLIMETRE * d for d in (1.0, 1.6, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 13.0, 16.0, 20.0))
"""Usual bores of tube."""
MATTERS = 0.002
"""Share of the pressure that a part must lose to be worth a change."""
UNLIMITED = 1.0
"""Above this nothing limits the flow; 1300 NL/min. [mol/s]"""

Change = tuple[str, Rig]


def flow_without(found: Solved, name: str) -> float:
    """Return the flow if a part lost no pressure; without limit where nothing else holds it."""
    try:
        other = solved(found.rig, without=frozenset({name}), start=found.solution.state)
    except NotConverged:
        return float("inf")
    return other.delivered if other.delivered < UNLIMITED else float("inf")


def changed(rig: Rig, found: Solved) -> Solved | None:
    """Return a changed rig solved, or None where nothing would limit its flow."""
    try:
        other = solved(rig, start=found.solution.state)
    except NotConverged:
        return None
    return other if other.delivered < UNLIMITED else None


def losing(found: Solved) -> list[str]:
    """Return the parts whose loss counts, suppliers included."""
    highest = max((p.inlet for p in found.points), default=found.room.pressure)
    span = highest - found.room.pressure
    names = [part.name for part in found.rig.parts if part.kind in SUPPLIERS]
    return names + [
        point.part.name
        for point in found.points
        if point.inlet - point.outlet > MATTERS * span and point.part.kind != "leak"
    ]


def changes(found: Solved) -> Iterator[Change]:
    """Yield the changes worth trying."""
    wanted = set(losing(found))
    for part in found.rig.parts:
        if part.name in wanted or part.kind == "leak":
            yield from _of_part(part, found.rig)


def _of_part(part: Part, rig: Rig) -> Iterator[Change]:
    name = part.name
    if part.kind == "pump":
        yield f"{name}: two of them joined, a check valve at each", _doubled(rig, part)
    if part.kind in ("tube", "connector"):
        bore = part.quantities["bore"].value
        wider = next((one for one in BORES if one >= 1.9 * bore), None)
        if wider is not None:
            yield (
                f"{name}: bore {_mm(wider)} instead of {_mm(bore)}",
                with_part(rig, name, bore=wider),
            )
    if part.kind == "tube":
        length = part.quantities["length"].value
        yield f"{name}: half as long", with_part(rig, name, length=0.5 * length)
    if part.kind in ("bottle", "tail bottle"):
        depth = part.quantities["depth"].value
        yield (
            f"{name}: {_cm(0.5 * depth)} deep instead of {_cm(depth)}",
            with_part(rig, name, depth=0.5 * depth),
        )
    yield from _opening(part, rig)


def _opening(part: Part, rig: Rig) -> Iterator[Change]:
    for field, words in (
        ("bubble_point", "a coarser one, opening at half the pressure"),
        ("cracking", "one that opens at half the pressure"),
        ("pore", "pores twice as wide"),
    ):
        if field in part.quantities and "at" not in part.quantities:
            factor = 2.0 if field == "pore" else 0.5
            value = factor * part.quantities[field].value
            yield f"{part.name}: {words}", with_part(rig, part.name, **{field: value})
    if part.kind == "needle valve":
        passes = part.quantities["passes"].value
        yield f"{part.name}: open for a fifth more", with_part(rig, part.name, passes=1.2 * passes)
    if part.kind == "flow controller":
        flow = part.quantities["flow"].value
        yield f"{part.name}: set a fifth higher", with_part(rig, part.name, flow=1.2 * flow)
    if part.kind == "leak":
        yield f"{part.name}: made tight", _tight(rig, part)


def _tight(rig: Rig, leak: Part) -> Rig:
    """Return the rig with a leak that passes nothing to speak of."""
    if "bore" in leak.quantities:
        return with_part(rig, leak.name, bore=1e-3 * leak.quantities["bore"].value)
    return with_part(rig, leak.name, passes=1e-6 * leak.quantities["passes"].value)


def _doubled(rig: Rig, pump: Part) -> Rig:
    """Return the rig with a pump that gives twice the flow at each pressure."""
    curve = tuple((p, replace(q, value=2.0 * q.value)) for p, q in pump.curve)
    quantities = dict(pump.quantities)
    if "free_flow" in quantities:
        free = quantities["free_flow"]
        quantities["free_flow"] = replace(free, value=2.0 * free.value)
    twice = replace(pump, curve=curve, quantities=quantities)
    return replace(rig, parts=tuple(twice if part is pump else part for part in rig.parts))


def little_more(found: Solved) -> Iterator[Change]:
    """Yield one small step of each part that loses pressure: 1 cm of depth, a tenth of the rest."""
    wanted = set(losing(found))
    for part in found.rig.parts:
        if part.name not in wanted:
            continue
        name, rig = part.name, found.rig
        if part.kind in ("bottle", "tail bottle"):
            depth = part.quantities["depth"].value + CENTIMETRE
            yield f"{name}: 1 cm deeper", with_part(rig, name, depth=depth)
        if part.kind in ("tube", "connector"):
            bore = part.quantities["bore"].value
            yield f"{name}: bore 5 % less", with_part(rig, name, bore=0.95 * bore)
        if part.kind == "tube":
            length = part.quantities["length"].value
            yield f"{name}: a tenth longer", with_part(rig, name, length=1.1 * length)
        for field, words in (("bubble_point", "bubble point"), ("cracking", "cracking pressure")):
            if field in part.quantities and "at" not in part.quantities:
                value = 1.1 * part.quantities[field].value
                yield f"{name}: {words} a tenth higher", with_part(rig, name, **{field: value})


def _mm(length: float) -> str:
    return f"{number(length, Kind.LENGTH, 'mm'):.3g} mm"


def _cm(length: float) -> str:
    return f"{number(length, Kind.LENGTH, 'cm'):.3g} cm"
