"""As last time, but: a table with its readings taken out and changes put in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from copy import deepcopy
from typing import Any


def as_last_time(
    data: Mapping[str, Any], readings: Iterable[str], changes: Mapping[str, Any]
) -> dict[str, Any]:
    """Return a copy of a document without its readings, changed."""
    table = deepcopy(dict(data))
    for place in readings:
        take_out(table, place)
    put_in(table, changes)
    return table


def take_out(table: dict[str, Any], place: str) -> None:
    """Remove what stands at a dotted place, if anything does."""
    name, _, rest = place.partition(".")
    if not rest:
        table.pop(name, None)
    elif isinstance(table.get(name), dict):
        take_out(table[name], rest)


def put_in(table: dict[str, Any], changes: Mapping[str, Any]) -> None:
    """Put changes into a table: tables go into tables, None takes out, dots lead inside."""
    for place, value in changes.items():
        name, _, rest = place.partition(".")
        if value is None:
            take_out(table, place)
        elif rest:
            inner = table.get(name)
            table[name] = inner if isinstance(inner, dict) else {}
            put_in(table[name], {rest: value})
        elif isinstance(value, Mapping) and isinstance(table.get(name), dict):
            put_in(table[name], value)
        else:
            table[name] = deepcopy(value)
