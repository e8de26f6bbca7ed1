"""Run documents for tests, as tables; the readings are invented."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

FULL_TEXT = (Path(__file__).parents[2] / "docs" / "examples" / "run.toml").read_text("utf-8")


def full(**changes: Any) -> dict[str, Any]:
    """Return the full run of the docs with fields changed by dotted place; None removes one.

    Write ``gas__flow="1 L/min"`` for ``gas.flow``.
    """
    table = tomllib.loads(FULL_TEXT)
    for place, value in changes.items():
        set_at(table, place.split("__"), value)
    return table


def set_at(table: dict[str, Any], steps: list[str], value: Any) -> None:
    """Set or, for None, remove one field."""
    for step in steps[:-1]:
        table = table.setdefault(step, {})
    if value is None:
        table.pop(steps[-1], None)
    else:
        table[steps[-1]] = copy.deepcopy(value)


def least(**changes: Any) -> dict[str, Any]:
    """Return the smallest run with a titre."""
    table: dict[str, Any] = {
        "run": {"on_time": "240 s"},
        "titration": {"titres": ["28.46 mL"], "titrant": {"concentration": "0.0510 mol/L"}},
    }
    for place, value in changes.items():
        set_at(table, place.split("__"), value)
    return table


def bottles(*changes: dict[str, str]) -> list[dict[str, str]]:
    usual = {"volume": "200 mL", "potassium_iodide": "4.0 g"}
    return [{**usual, **change} for change in changes]


def acid(**changes: str) -> dict[str, str]:
    usual = {"kind": "sulfuric acid", "amount": "10 mL", "concentration": "1 mol/L"}
    return {**usual, "when": "after", **changes}
