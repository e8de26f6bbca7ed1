"""Gas that the parts hold: hold-up from tube to liquid, time in the tube."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.physics.gas.parts.annulus import annulus_area
from ozonewright.physics.gas.parts.bed import VOID
from ozonewright.physics.gas.parts.volume import bore_volume, passage_time
from ozonewright.questions.gas_line.model import Solved, gas_of_part
from ozonewright.questions.gas_line.shape import BOTTLES, SUPPLIERS
from ozonewright.records.rig import Part, Rig

SMALL = ("check valve", "needle valve", "flow controller", "rotameter", "tee", "leak", "sparger")
"""Kinds whose own volume is left out."""


def volume_of(part: Part) -> float | None:
    """Return the gas that a part holds, or None where the rig does not tell."""
    bore, length = part.value("bore"), part.value("length")
    if part.kind in SMALL or part.kind in SUPPLIERS:
        return 0.0
    if part.kind == "safety bottle":
        return part.value("volume")
    if part.kind in BOTTLES:
        capacity, volume = part.value("capacity"), part.value("volume")
        return None if capacity is None or volume is None else capacity - volume
    if part.kind == "connector":
        return float(bore_volume(bore=bore or 0.0, length=length or 0.0))
    if bore is None or length is None:
        return None
    if part.kind == "discharge tube" and (gap := part.value("gap")) is not None:
        return annulus_area(bore=bore, gap=gap) * length
    whole = float(bore_volume(bore=bore, length=length))
    if part.kind in ("desiccant column", "destruct"):
        void = part.value("void")
        return whole * (VOID if void is None else void)
    return whole


def path_to_liquid(rig: Rig) -> tuple[list[Part], Part, Part] | None:
    """Return the parts between discharge tube and first liquid, the tube, and the bottle.

    Without a discharge tube the path begins behind the supplier.
    """
    bottles = [part for part in rig.parts if part.kind in BOTTLES]
    for wanted in (("discharge tube",), SUPPLIERS):
        for bottle in bottles:
            found = _back(rig, bottle, wanted, ())
            if found is not None:
                between = [part for part in found[1:-1] if part.kind not in BOTTLES]
                if len(between) == len(found) - 2:
                    return between, found[0], bottle
    return None


def _back(rig: Rig, part: Part, wanted: Sequence[str], seen: tuple[str, ...]) -> list[Part] | None:
    """Return the parts from one of the wanted kinds down to this part."""
    if part.kind in wanted:
        return [part]
    for before in rig.parts:
        if before.name in part.after and before.name not in seen:
            found = _back(rig, before, wanted, (*seen, part.name))
            if found is not None:
                return [*found, part]
    return None


def hold_up(parts: Sequence[Part]) -> float | None:
    """Return the gas that some parts hold together, or None where one is not known."""
    volumes = [volume_of(part) for part in parts]
    known = [volume for volume in volumes if volume is not None]
    return sum(known) if len(known) == len(volumes) else None


def time_through(found: Solved, parts: Sequence[Part]) -> float | None:
    """Return how long the flow takes through some parts, or None where it is not known."""
    total = 0.0
    for part in parts:
        volume, point = volume_of(part), found.point(part.name)
        if volume == 0.0:
            continue
        if volume is None or point is None or point.flow <= 0.0:
            return None
        total += passage_time(
            volume=volume,
            flow=point.flow,
            pressure=0.5 * (point.inlet + point.outlet),
            gas=gas_of_part(part, point.mixture, found.room),
        )
    return total
