"""The rig document: a gas line, part by part in flow order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from ozonewright.documents.part import PartSection
from ozonewright.documents.parts import PARTS
from ozonewright.documents.section import ByWord, Given, Section
from ozonewright.documents.typed import AirPressure, DewPoint, Part, RoomTemperature
from ozonewright.errors import AppError, Inconsistent, InputError, MissingValue, nearest

SUPPLIERS = ("pump", "cylinder", "concentrator")


class AmbientSection(Section):
    temperature: RoomTemperature | None = None
    pressure: AirPressure | None = None
    humidity: Part | None = None
    dew_point: DewPoint | None = None

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


class ChecklistSection(Section):
    """What only a person can tell the gate; true is the safe answer, left out is not answered."""

    earthed: bool | None = None
    residual_current_device: bool | None = None
    fused: bool | None = None
    bled: bool | None = None
    never_open_circuit: bool | None = None
    supply_sound: bool | None = None
    fan_proven: bool | None = None
    no_oxygen_joint_in_box: bool | None = None
    no_glued_joint: bool | None = None
    nothing_flammable_near: bool | None = None
    attended: bool | None = None
    joints_tested: bool | None = None
    oxygen_clean: bool | None = None
    cylinder_chained: bool | None = None
    cylinder_shaded: bool | None = None
    no_cold_trap: bool | None = None
    no_spark: bool | None = None
    no_acetone: bool | None = None
    old_residue_cleared: bool | None = None
    shielded: bool | None = None
    detector: bool | None = None
    inert_gas_ready: bool | None = None


class RigDocument(Section):
    """A gas line with its parts."""

    rig: RigSection
    checklist: ChecklistSection = ChecklistSection()
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
    written = {name for part in parts if (name := _written(part))}
    seen: dict[str, int] = {}
    names = []
    for part in parts:
        if own := _written(part):
            names.append(own)
            continue
        seen[part.kind] = seen.get(part.kind, 0) + 1
        name = part.kind if seen[part.kind] == 1 else f"{part.kind} {seen[part.kind]}"
        while name in written:
            seen[part.kind] += 1
            name = f"{part.kind} {seen[part.kind]}"
        names.append(name)
    return names


def _written(part: PartSection) -> str:
    """Return the name that a part was given; one without a letter to see is none."""
    return (part.name or "").strip()


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
