"""A workshop in which nothing is wrong (invented), and ways to change one thing of it."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

from ozonewright.bench.gate import ask
from ozonewright.documents.rig import ChecklistSection
from ozonewright.documents.section import fields_of
from ozonewright.questions.gate import Gate

Place = tuple[str | int, ...]

WORLD: dict[str, Any] = {
    "rig": {
        "rig": {
            "label": "workshop",
            "ambient": {"temperature": "22 °C", "pressure": "101.3 kPa"},
        },
        "part": [
            {
                "name": "supply",
                "kind": "cylinder",
                "gas": "oxygen",
                "flow": "0.8 L/min",
                "material": "brass",
            },
            {
                "name": "tube",
                "material": "glass",
                "kind": "discharge tube",
                "bore": "30 mm",
                "length": "20 cm",
                "gap": "1.5 mm",
            },
            {"name": "line", "kind": "tube", "bore": "4 mm", "length": "1 m", "material": "PTFE"},
            {
                "name": "valve",
                "kind": "check valve",
                "cracking": "1 kPa",
                "direction": "forward",
                "material": "PVDF",
            },
            {"name": "empty", "material": "glass", "kind": "safety bottle", "volume": "500 mL"},
            {
                "name": "dip",
                "kind": "sparger",
                "form": "open tube",
                "bore": "4 mm",
                "material": "glass",
            },
            {
                "name": "flask",
                "material": "glass",
                "kind": "bottle",
                "role": "flask",
                "volume": "100 mL",
                "depth": "5 cm",
            },
            {
                "name": "tail",
                "material": "glass",
                "kind": "tail bottle",
                "reagent": "potassium iodide",
                "mass": "20 g",
                "volume": "200 mL",
                "depth": "5 cm",
            },
            {
                "name": "drying",
                "material": "glass",
                "kind": "bottle",
                "role": "drying",
                "volume": "50 mL",
                "depth": "0 cm",
            },
            {
                "name": "bed",
                "material": "glass",
                "kind": "destruct",
                "content": "manganese dioxide",
                "wet": False,
            },
            {"name": "window", "kind": "vent", "to": "outdoors"},
        ],
        "checklist": {name: True for name in fields_of(ChecklistSection)},
    },
    "room": {
        "room": {
            "label": "workshop",
            "volume": "24 m3",
            "air_changes": "3 /h",
            "removal": "2.8 /h ± 0.3 /h",
            "temperature": "22 °C",
            "limit": "0.1 ppm",
        }
    },
    "reaction": {
        "reaction": {
            "label": "vanillin",
            "solvent": "methanol",
            "volume": "100 mL",
            "temperature": "-40 °C",
            "work_up": "reductive",
            "quench": {"reagent": "triphenylphosphine", "equivalents": 1.10},
            "output": "0.62 g/h ± 5 %",
            "uptake": "88 % ± 3.5 points",
        },
        "gas": {
            "feed": "oxygen",
            "flow": "0.80 L/min",
            "temperature": "22 °C",
            "pressure": "101.3 kPa",
        },
        "substrate": [{"smiles": "C/C=C/c1ccc(O)c(OC)c1", "amount": "10.0 mmol"}],
    },
}


def world() -> dict[str, Any]:
    """Return the whole world to change."""
    return copy.deepcopy(WORLD)


def part(table: dict[str, Any], name: str) -> dict[str, Any]:
    """Return a part of the rig by its name."""
    found: dict[str, Any] = next(p for p in table["rig"]["part"] if p["name"] == name)
    return found


def asked(table: dict[str, Any], **texts: str) -> Gate:
    """Return the gate of a world."""
    return ask(table["rig"], table.get("room"), table.get("reaction"), texts)


def verdicts(found: Gate) -> dict[str, str]:
    """Return the worst verdict of each code."""
    order = ("go", "fix", "stop")
    worst: dict[str, str] = {}
    for check in found.checks:
        before = worst.get(check.code, "go")
        worst[check.code] = max(before, check.verdict, key=order.index)
    return worst


NOT_SAFETY = {"label", "by", "remark", "name", "kind", "after"}
"""Fields that say nothing of a hazard, or without which a document can't be read."""


def places(table: Any, at: Place = ()) -> Iterator[Place]:
    """Yield the place of every field that may be left out."""
    if isinstance(table, dict):
        for name, value in table.items():
            if name in NOT_SAFETY:
                continue
            if isinstance(value, dict | list) and value and not isinstance(value, str):
                yield from places(value, (*at, name))
            if at:
                yield (*at, name)
    elif isinstance(table, list):
        for number, value in enumerate(table):
            yield from places(value, (*at, number))


def without(table: dict[str, Any], place: Place) -> dict[str, Any]:
    """Return a copy in which one field is left out."""
    changed = copy.deepcopy(table)
    inside: Any = changed
    for step in place[:-1]:
        inside = inside[step]
    del inside[place[-1]]
    return changed
