"""A typed table as stored text and back: every TOML type returns as it was."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, datetime, time, timedelta, timezone
from hashlib import sha256
from typing import Any

from ozonewright.errors import InputError
from ozonewright.units import Kind, number

MARK = "$"
"""First letter of the one key that stands for a type JSON lacks; doubled in a name so typed."""
DEEPEST = 60


def stored(table: Mapping[str, Any], *, sort: bool = False) -> str:
    """Return a table as text: JSON, with dates and times under a marked key."""
    return json.dumps(_marked(table, "", 0), ensure_ascii=False, sort_keys=sort)


def returned(text: str) -> dict[str, Any]:
    """Return the table that `stored` wrote."""
    # The quickest reader that will do: few documents have a date, hardly any a name with a mark.
    reader = PLAIN if f'"{MARK}' not in text else DATED if f'"{MARK}{MARK}' not in text else WHOLE
    table = reader.decode(text)
    assert isinstance(table, dict)
    return table


def _marked(value: Any, place: str, depth: int) -> Any:
    if depth > DEEPEST:
        raise InputError("tables this deep can't be kept", where=place, fix="Write a flat table.")
    # A date-time is also a date, and a truth is also a count: the narrower type comes first.
    for kind, mark in ((datetime, "datetime"), (date, "date"), (time, "time")):
        if isinstance(value, kind):
            return {MARK + mark: value.isoformat()}
    if isinstance(value, Mapping):
        return {
            _name(key, place): _marked(one, _below(place, key), depth + 1)
            for key, one in value.items()
        }
    if isinstance(value, str):
        return _text(value, place)
    if isinstance(value, Sequence) and not isinstance(value, bytes):
        return [_marked(one, f"{place}[{n}]", depth + 1) for n, one in enumerate(value, start=1)]
    if isinstance(value, bool | int | float):
        return value
    raise InputError(
        "a value of this type can't be written down",
        where=place,
        got=type(value).__name__,
        fix='Write text with a unit, such as "28.46 mL".',
    )


def _text(value: Any, place: str) -> str:
    if not isinstance(value, str):
        raise InputError("a name must be text", where=place, got=repr(value), fix="Quote it.")
    try:
        value.encode()
    except UnicodeEncodeError as error:
        raise InputError(
            "half a character is in this text", where=place, fix="Type the text again."
        ) from error
    return str(value)


def _name(key: Any, place: str) -> str:
    """Return a name of the person's own, doubly marked where it begins with the mark."""
    text = _text(key, place)
    return MARK + text if text.startswith(MARK) else text


def _below(place: str, key: Any) -> str:
    return f"{place}.{key}" if place else str(key)


def _dated(table: dict[str, Any]) -> Any:
    if len(table) != 1:
        return table
    ((key, value),) = table.items()
    again = READ_AGAIN.get(key)
    return table if again is None else again(value)


def _whole(table: dict[str, Any]) -> Any:
    found = _dated(table)
    if found is not table:
        return found
    return {key[1:] if key.startswith(MARK) else key: value for key, value in table.items()}


READ_AGAIN: dict[str, Callable[[str], Any]] = {
    MARK + "datetime": datetime.fromisoformat,
    MARK + "date": date.fromisoformat,
    MARK + "time": time.fromisoformat,
}
PLAIN = json.JSONDecoder()
DATED = json.JSONDecoder(object_hook=_dated)
WHOLE = json.JSONDecoder(object_hook=_whole)


def offsets(table: Mapping[str, Any], place: str = "") -> Iterator[tuple[str, str]]:
    """Yield each date-time typed without a zone, with the local clock's offset at that time."""
    for key, value in table.items():
        below = _below(place, key)
        if isinstance(value, datetime) and value.tzinfo is None:
            yield below, offset_text(value)
        elif isinstance(value, Mapping):
            yield from offsets(value, below)


def offset_text(local: datetime) -> str:
    """Return the local clock's offset at a local time: ``+02:00``."""
    try:
        aware = local.astimezone()
    except (OverflowError, ValueError, OSError):
        return "+00:00"
    return whole_minutes(aware).isoformat()[-6:]


def whole_minutes(moment: datetime) -> datetime:
    """Return a moment under an offset of whole minutes, which is all that TOML can write."""
    aware = moment.astimezone() if moment.tzinfo is None else moment
    offset = aware.utcoffset() or timedelta()
    minutes = round(number(offset.total_seconds(), Kind.TIME, "min"))
    return aware.astimezone(timezone(timedelta(minutes=minutes)))


def with_offset(moment: datetime, offset: str | None) -> datetime:
    """Return a date-time typed without zone as a moment, by the offset stored beside it."""
    if moment.tzinfo is not None or offset is None:
        return moment
    return datetime.fromisoformat(moment.isoformat() + offset)


def digest(*parts: Any) -> str:
    """Return the fingerprint of the parts of a revision."""
    text = json.dumps(parts, ensure_ascii=True, sort_keys=True)
    return sha256(text.encode()).hexdigest()[:32]
