"""Rigs for the tests, written as a person writes them (invented)."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

from ozonewright.bench.rig import rig_of
from ozonewright.questions.gas_line import GasLine, PartRow
from ozonewright.questions.gas_line.model import solved
from ozonewright.results import Note

KPA = 1e3

DESIGN = """
[rig]
label = "pump air, long thin line"
ambient = { temperature = "20 °C", pressure = "101.325 kPa" }
[[part]]
name = "pump"
kind = "pump"
free_flow = "3.0 L/min"
shut_off = "18 kPa"
[[part]]
name = "line"
kind = "tube"
bore = "2 mm"
length = "1 m"
material = "PTFE"
[[part]]
name = "valve"
kind = "check valve"
cracking = "1 kPa"
[[part]]
name = "stone"
kind = "sparger"
bubble_point = "2.9 kPa"
[[part]]
name = "bottle"
kind = "bottle"
liquid = "water"
volume = "200 mL"
depth = "15 cm"
"""

STORY = """
[rig]
label = "hardly any bubbles"
ambient = { temperature = "20 °C", pressure = "101.325 kPa", humidity = "50 %" }
[[part]]
name = "pump"
kind = "pump"
free_flow = "6.0 L/min"
shut_off = "18 kPa"
outlets = 2
flow_of = "all outlets"
[[part]]
name = "leg 1"
kind = "check valve"
after = "pump"
cracking = "1 kPa"
[[part]]
name = "leg 2"
kind = "check valve"
after = "pump"
cracking = "1 kPa"
[[part]]
name = "join"
kind = "tee"
after = ["leg 1", "leg 2"]
[[part]]
name = "line"
kind = "tube"
bore = "2 mm"
length = "2 m"
[[part]]
name = "generator"
kind = "discharge tube"
bore = "20 mm"
gap = "1.5 mm"
length = "180 mm"
[[part]]
name = "valve"
kind = "check valve"
cracking = "1 kPa"
[[part]]
name = "stone"
kind = "sparger"
bubble_point = "2.9 kPa"
[[part]]
name = "bottle"
kind = "bottle"
liquid = "water"
volume = "200 mL"
depth = "15 cm"
"""


def design() -> dict[str, Any]:
    """Return the rig of the design."""
    return tomllib.loads(DESIGN)


def story() -> dict[str, Any]:
    """Return two outlets joined before a thin line."""
    return tomllib.loads(STORY)


def changed(table: dict[str, Any], part: str, **fields: Any) -> dict[str, Any]:
    """Return a rig in which fields of one part are others; None takes a field out."""
    found = copy.deepcopy(table)
    for one in found["part"]:
        if one["name"] == part:
            one.update(fields)
            for name in [name for name, value in fields.items() if value is None]:
                del one[name]
    return found


def without(table: dict[str, Any], *names: str) -> dict[str, Any]:
    """Return a rig without some parts."""
    found = copy.deepcopy(table)
    found["part"] = [one for one in found["part"] if one["name"] not in names]
    return found


def inserted(table: dict[str, Any], place: int, **part: Any) -> dict[str, Any]:
    """Return a rig with one more part."""
    found = copy.deepcopy(table)
    found["part"].insert(place, part)
    return found


def rows(found: GasLine) -> dict[str, PartRow]:
    """Return the parts of an answer by name."""
    return {row.name: row for row in found.parts}


def note(found: GasLine, code: str) -> Note:
    """Return the one note of a code."""
    (one,) = [one for one in found.notes if one.code == code]
    return one


def codes(found: GasLine) -> set[str]:
    """Return the codes of the notes."""
    return {one.code for one in found.notes}


def drop(found: GasLine, name: str) -> float:
    """Return the pressure lost in a part, in kPa."""
    lost = rows(found)[name].drop
    assert lost is not None
    return lost / KPA


def flow(table: dict[str, Any]) -> float:
    """Return the flow of a rig, in mol/s."""
    return solved(rig_of(table)).delivered
