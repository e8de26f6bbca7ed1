"""Random damage to valid documents; the benchmark draws ten times as many from the same source."""

from __future__ import annotations

import copy
import random
import re
import tomllib
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
JUNK: tuple[Any, ...] = (
    "",
    " ",
    "nan",
    "inf mL",
    "1e999 mL",
    "-5 mL",
    "0 s",
    "1,234 mL",
    "12",
    "5 ML",
    "± 3",
    "± ±",
    "18.46 mL ± -1",
    "18.46 mL ± 5 g",
    "1e-300 s",
    "9" * 400 + " s",
    "4 min 4 min",
    "室温",
    "\u202e1 s",
    "1 mL\x00",
    "<b>1 mL</b>",
    "١٢ mL",
    "50 mL class Z",
    "50 mL class A",
    "150 bar gauge",
    "on",
    "oxygen",
    0,
    -1,
    1.5,
    float("nan"),
    float("inf"),
    10**400,
    True,
    False,
    [],
    [[]],
    [[[]]],
    {},
    {"a": {}},
    ["1 mL"],
    ["1 mL", 2],
    {"oxygen": "100 vol%"},
    {"oxygen": "nan"},
    datetime(2026, 5, 9),
    None,
    "1e308 mL",
    "1e308 g/h",
    "1e-320 mol/L",
    "0.0000000001 s",
    "1e300 W",
    "1e-300 L/min",
    "0 mL",
    "0.00 mL",
    "1 mL ± 0 mL",
    "20 mL ± 1e30 mL",
    "20 mL ± 400 %",
    "4 min ± 10 min",
    "1e39 mL",
    "1e-39 mL",
    "1e-39 s",
    "1e39 g/h",
    "1e-39 mol/L",
    "1e39 W",
    "1 K",
    "9000 °C",
)
"""Values put in place of a field; None removes it."""


def sources() -> list[str]:
    """Return the valid documents that are damaged."""
    least = '[run]\non_time = "4 min"\n[titration]\ntitres = ["28.46 mL"]\n'
    titrant = '[titration.titrant]\nconcentration = "0.0510 mol/L"\n'
    several = '[[run]]\nrate = "0.5 g/h"\n[[run]]\non_time = "2 min"\ncollected = "1 mmol"\n'
    full = (ROOT / "docs" / "examples" / "run.toml").read_text(encoding="utf-8")
    return [full, full, full, least + titrant, several]


def places(table: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Yield the way to every field and list item."""
    steps = table.items() if isinstance(table, dict) else enumerate(table)
    for step, value in steps:
        yield (*path, step)
        if isinstance(value, dict | list):
            yield from places(value, (*path, step))


def damaged(seed: int) -> dict[str, Any] | str:
    """Return a damaged table, or damaged text."""
    chance = random.Random(seed)
    text = chance.choice(sources())
    if chance.random() < 0.25:
        return garbled(text, chance)
    table = tomllib.loads(text)
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        table = mutated(table, chance)
    return table


def garbled(text: str, chance: random.Random) -> str:
    """Cut, double, or overwrite a piece of the text."""
    start = chance.randrange(len(text))
    end = min(len(text), start + chance.randint(1, 40))
    middle = chance.choice(["", text[start:end] * 2, "\x00", '"', "[[", "=", "é", "\n", "🧪"])
    return text[:start] + middle + text[end:]


def mutated(table: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """Replace, remove, rename, swap, double or blow up one field."""
    table = copy.deepcopy(table)
    ways = list(places(table))
    if not ways:
        return table
    *steps, last = chance.choice(ways)
    holder: Any = table
    for step in steps:
        holder = holder[step]
    act = chance.randrange(6)
    if act == 0 and isinstance(holder, dict):
        holder[f"{last}x"] = holder.pop(last)
    elif act == 1:
        other = chance.choice(ways)
        holder[last] = value_at(table, other)
    elif act >= 4 and isinstance(holder[last], str):
        # a size that can be read and makes no sense: it reaches the calculation
        power = chance.choice((-38, -20, -9, -3, -2, -1, 1, 2, 3, 9, 20, 36))
        holder[last] = re.sub(r"\d+(\.\d+)?", rf"\g<0>e{power}", holder[last], count=1)
    elif act == 2 and isinstance(holder[last], str):
        holder[last] = garbled(holder[last] or " ", chance)
    else:
        junk = chance.choice(JUNK)
        if junk is None:
            del holder[last]
        else:
            holder[last] = copy.deepcopy(junk)
    return table


def value_at(table: Any, way: tuple[Any, ...]) -> Any:
    """Return a copy of the value at a place."""
    for step in way:
        table = table[step]
    return copy.deepcopy(table)
