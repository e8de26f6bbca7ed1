"""Every filled place of a document with its text, parts named by their own names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any


def leaves(data: Any, place: str = "") -> Iterator[tuple[str, str]]:
    """Yield (place, text); a part of a list stands under its name or kind, not its number."""
    if isinstance(data, Mapping):
        for name, value in data.items():
            yield from leaves(value, f"{place}, {name}" if place else str(name))
    elif isinstance(data, list) and any(isinstance(one, Mapping) for one in data):
        for number, one in enumerate(data, start=1):
            named = one.get("name") or one.get("kind") if isinstance(one, Mapping) else None
            yield from leaves(one, f"{place}, {named or number}")
    elif isinstance(data, list):
        yield place, "; ".join(str(one) for one in data)
    elif data is not None:
        yield place, str(data)
