"""What a rig leaves open, and the answers that wait for it."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.records.rig import Part, Rig

NEEDED: dict[str, tuple[tuple[str, ...], ...]] = {
    "cylinder": (("volume",), ("pressure",)),
    "needle valve": (("passes",),),
    "flow controller": (("least_drop",),),
    "rotameter": (("drop",),),
    "check valve": (("cracking",), ("direction",)),
    "desiccant column": (("passes", "grain"), ("passes", "bore"), ("passes", "length")),
    "destruct": (("passes", "grain"), ("passes", "bore"), ("passes", "length")),
    "sparger": (("bubble_point", "pore", "bore"),),
    "bottle": (("liquid", "density"), ("volume",), ("depth",)),
    "tail bottle": (("liquid", "density"), ("volume",), ("depth",)),
    "safety bottle": (("volume",),),
}
"""For each kind, the fields an answer rests on; of several in one bracket one is enough."""


def unknowns(rig: Rig) -> list[str]:
    """Return the places that were left empty and that some answer waits for."""
    return [*_of_the_room(rig), *(place for part in rig.parts for place in of_part(part))]


def of_part(part: Part) -> Iterator[str]:
    """Yield what one part leaves open, under its own name."""
    for choices in NEEDED.get(part.kind, ()):
        if not any(name in part.quantities or name in part.words for name in choices):
            yield f"{part.name}.{choices[-1]}"


def _of_the_room(rig: Rig) -> Iterator[str]:
    ambient = rig.ambient
    if ambient.temperature is None:
        yield "rig.ambient.temperature"
    if ambient.pressure is None:
        yield "rig.ambient.pressure"
    room_air = any(part.gas is not None and part.gas.may_be_moist for part in rig.parts)
    if room_air and ambient.humidity is None and ambient.dew_point is None:
        yield "rig.ambient.humidity"
