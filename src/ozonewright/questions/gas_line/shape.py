"""How the parts of a rig hang together: legs from suppliers and junctions to junctions and ends."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ozonewright.errors import AppError, Faults, Inconsistent, InputError, MissingValue
from ozonewright.records.rig import Part, Rig

SUPPLIERS = ("pump", "cylinder", "concentrator")
BOTTLES = ("bottle", "tail bottle")
ENDS = ("vent", "leak", "destruct", *BOTTLES)
"""Kinds that may stand last: what leaves them goes to the room."""
CLOSED = ("vent", "cap")
"""Kinds that nothing can follow."""


@dataclass(frozen=True, slots=True)
class Leg:
    """Parts in series."""

    supplier: Part | None
    head: str | None
    """The junction it begins at, where it begins at none of the suppliers."""
    parts: tuple[Part, ...]
    """In flow order, without supplier and junctions."""
    tail: str | None
    """The junction it ends at; None where it ends in the open, or at a cap."""

    @property
    def last(self) -> Part | None:
        """The part it ends with."""
        return self.parts[-1] if self.parts else self.supplier


@dataclass(frozen=True, slots=True)
class Shape:
    """Legs and junctions."""

    legs: tuple[Leg, ...]
    junctions: tuple[str, ...]
    unused: Mapping[str, int]
    """Outlets of pumps that lead nowhere."""


def shape_of(rig: Rig) -> Shape:
    """Return how the parts hang together.

    Raises
    ------
    Faults
        No supplier, no vent, a branch that nothing feeds, two parts where a tee is missing.
    """
    followers: dict[str, list[Part]] = {part.name: [] for part in rig.parts}
    for part in rig.parts:
        for name in part.after:
            followers[name].append(part)
    faults = [*_missing(rig)] or [*_joints(rig, followers), *_unfed(rig, followers)]
    faults = faults or [*_ends(rig, followers)]
    if faults:
        raise Faults(faults)
    junctions = tuple(
        part.name
        for part in rig.parts
        if part.kind == "tee" or (part.kind == "leak" and followers[part.name])
    )
    legs = tuple(_legs(rig, followers, junctions))
    unused = {
        part.name: part.counts["outlets"] - len(followers[part.name])
        for part in rig.of_kind("pump")
        if part.counts["outlets"] > len(followers[part.name])
    }
    return Shape(legs, junctions, unused)


def _missing(rig: Rig) -> Iterator[AppError]:
    if not rig.of_kind(*SUPPLIERS):
        yield MissingValue(
            "no supplier: nothing drives gas into this line",
            where="part",
            fix='Begin with a part of kind = "pump", "cylinder" or "concentrator".',
        )


def _joints(rig: Rig, followers: Mapping[str, list[Part]]) -> Iterator[AppError]:
    for part in rig.parts:
        behind = followers[part.name]
        if part.kind in SUPPLIERS and part.after:
            yield Inconsistent(
                "a supplier takes its gas from no other part",
                where=f"{part.place}.after",
                got=", ".join(part.after),
                fix="Leave out after, and join the two lines by a tee.",
            )
        if len(part.after) > 1 and part.kind != "tee":
            yield Inconsistent(
                f"{len(part.after)} parts lead into {part.name}",
                where=f"{part.place}.after",
                got=", ".join(part.after),
                fix='Join them by a part of kind = "tee" and let this one follow it.',
            )
        outlets = part.counts["outlets"] if part.kind == "pump" else 1
        if len(behind) > outlets and part.kind != "tee":
            names = ", ".join(one.name for one in behind)
            yield Inconsistent(
                f"{len(behind)} parts follow {part.name}, which has {outlets} outlet"
                + ("s" if outlets > 1 else ""),
                where=part.place,
                got=names,
                fix='Split the line by a part of kind = "tee" and let them follow it'
                + (", or write outlets = 2." if part.kind == "pump" else "."),
            )
        if behind and part.kind in CLOSED:
            yield Inconsistent(
                f"{behind[0].name} follows a {part.kind}",
                where=f"{behind[0].place}.after",
                got=part.name,
                fix=f"Nothing follows a {part.kind}: name the part before it.",
            )


def _unfed(rig: Rig, followers: Mapping[str, list[Part]]) -> Iterator[AppError]:
    reached: set[str] = set()
    waiting = [part.name for part in rig.of_kind(*SUPPLIERS)]
    while waiting:
        name = waiting.pop()
        if name not in reached:
            reached.add(name)
            waiting += [part.name for part in followers[name]]
    for part in rig.parts:
        if part.name not in reached:
            yield InputError(
                f"{part.name} is not connected: no supplier feeds it",
                where=part.place,
                got=f"after = {list(part.after)}",
                fix='Say which part it follows: after = "…".',
            )


def _ends(rig: Rig, followers: Mapping[str, list[Part]]) -> Iterator[AppError]:
    ends = [part for part in rig.parts if not followers[part.name]]
    for part in ends:
        if part.kind not in (*ENDS, "cap"):
            yield MissingValue(
                f"no vent: the line ends with {part.name} and nothing says where its gas goes",
                where=part.place,
                got=part.kind,
                fix='Add a part of kind = "vent" behind it (or "bottle"; or "cap" if it is shut).',
            )
    if all(part.kind == "cap" for part in ends):
        yield MissingValue(
            "no vent: every end of this line is shut",
            where="part",
            fix='Add a part of kind = "vent" where the gas leaves.',
        )
    yield from _bubbles(rig, followers)


def _bubbles(rig: Rig, followers: Mapping[str, list[Part]]) -> Iterator[AppError]:
    for part in rig.of_kind("sparger"):
        if not any(one.kind in BOTTLES for one in followers[part.name]):
            yield MissingValue(
                f"{part.name} bubbles into no bottle",
                where=part.place,
                fix='Let a part of kind = "bottle" follow it, with its liquid and depth.',
            )


def _legs(
    rig: Rig,
    followers: Mapping[str, list[Part]],
    junctions: tuple[str, ...],
) -> Iterator[Leg]:
    for part in rig.parts:
        if part.kind in SUPPLIERS or part.name in junctions:
            for first in followers[part.name]:
                yield _leg(part, first, followers, junctions)
        if part.kind == "leak" and part.name in junctions:
            yield Leg(None, part.name, (part,), None)


def _leg(
    begin: Part,
    first: Part,
    followers: Mapping[str, list[Part]],
    junctions: tuple[str, ...],
) -> Leg:
    parts: list[Part] = []
    here: Part | None = first
    while here is not None and here.name not in junctions:
        parts.append(here)
        here = next(iter(followers[here.name]), None)
    supplier = begin if begin.kind in SUPPLIERS else None
    return Leg(
        supplier,
        None if supplier else begin.name,
        tuple(parts),
        None if here is None else here.name,
    )
