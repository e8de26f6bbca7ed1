"""The rig document: a gas line, part by part in flow order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from ozonewright.documents.parts import PARTS, PartSection
from ozonewright.documents.section import ByWord, Given, Section
from ozonewright.documents.typed import Part, Pressure, Temperature
from ozonewright.errors import AppError, Inconsistent, InputError, MissingValue, nearest

SUPPLIERS = ("pump", "cylinder", "concentrator")


class AmbientSection(Section):
    temperature: Temperature | None = None
    pressure: Pressure | None = None
    humidity: Part | None = None
    dew_point: Temperature | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if "humidity" in given and "dew_point" in given:
            yield Inconsistent(
                "the moisture of the room is stated twice",
                where="dew_point",
                fix="Give its humidity or its dew point, not both.",
            )


class RigSection(Section):
    label: str | None = None
    by: str | None = None
    remark: str | None = None
    ambient: AmbientSection = AmbientSection()


class RigDocument(Section):
    """A gas line with its parts."""

    rig: RigSection
    part: tuple[Annotated[PartSection, ByWord("kind", PARTS)], ...]

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        parts = given["part"]
        if parts is None:
            return
        if not parts:
            yield MissingValue("no part is written", where="part", fix="Write [[part]] for each.")
        names = names_of(parts)
        for number, part in enumerate(parts):
            place = f"part[{number + 1}]"
            if names[number] in names[:number]:
                yield Inconsistent(
                    "two parts have one name",
                    where=f"{place}.name",
                    got=names[number],
                    fix="Give each part a name of its own.",
                )
            yield from _unknown(part, names, number, place)


def names_of(parts: tuple[PartSection, ...]) -> list[str]:
    """Return the name of each part: as written, else its kind, counted where there are several."""
    written = {part.name for part in parts if part.name}
    seen: dict[str, int] = {}
    names = []
    for part in parts:
        if part.name:
            names.append(part.name)
            continue
        seen[part.kind] = seen.get(part.kind, 0) + 1
        name = part.kind if seen[part.kind] == 1 else f"{part.kind} {seen[part.kind]}"
        while name in written:
            seen[part.kind] += 1
            name = f"{part.kind} {seen[part.kind]}"
        names.append(name)
    return names


def before(parts: tuple[PartSection, ...], names: list[str]) -> list[tuple[str, ...]]:
    """Return the names of the parts before each: as written, else the one above it."""
    return [
        part.after
        if part.after is not None
        else (() if part.kind in SUPPLIERS or number == 0 else (names[number - 1],))
        for number, part in enumerate(parts)
    ]


def _unknown(part: PartSection, names: list[str], number: int, place: str) -> Iterator[AppError]:
    for name in part.after or ():
        if name == names[number]:
            yield Inconsistent(
                "a part can't follow itself",
                where=f"{place}.after",
                got=name,
                fix="Name the part before it.",
            )
        elif name not in names:
            yield InputError(
                "no part has this name",
                where=f"{place}.after",
                got=name,
                fix=nearest(name, names),
            )
