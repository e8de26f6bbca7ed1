"""Forms over document tables: a field is a place of the document, its text stays as typed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import date, datetime
from itertools import pairwise
from typing import Any, Literal

from ozonewright.errors import AppError, Faults, InputError, OutOfBounds

Table = dict[str, Any]
Step = str | int
LONGEST = 4000
GIST = 60
_STEP = re.compile(r"([^.\[\]]+)|\[(\d+)\]")
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a form."""

    place: str
    """Where it stands in the document: ``titration.titres[1]``; also its name in the form."""
    label: str
    hint: str = ""
    """An example in the trade's own form."""
    kind: Literal["text", "choice", "area", "repeats", "date", "moment", "flag", "number"] = "text"
    choices: tuple[tuple[str, str], ...] = ()

    @property
    def id(self) -> str:
        """The name of the field in the page, for its label and its message."""
        return re.sub(r"[^a-z0-9]+", "-", self.place.lower()).strip("-")


@dataclass(frozen=True, slots=True)
class Group:
    """Fields that belong together; `closed` ones open on demand."""

    title: str
    fields: tuple[Field, ...]
    closed: bool = True


@dataclass(frozen=True)
class Form:
    """A form as it is shown: what was typed, and what must be mended where."""

    groups: tuple[Group, ...]
    values: Mapping[str, str]
    faults: Mapping[str, AppError] = field(default_factory=dict)
    elsewhere: tuple[AppError, ...] = ()
    """Faults that belong to no field of this form."""
    offers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Values typed lately, offered again."""

    def is_open(self, group: Group) -> bool:
        """Return whether a group shows its fields without being asked."""
        return not group.closed or any(one.place in self.faults for one in group.fields)

    def gist(self, group: Group) -> str:
        """Return what a closed group holds, in short."""
        texts = [text for one in group.fields if (text := self.values.get(one.place))]
        line = ", ".join(texts)
        return f"{line[:GIST]}…" if len(line) > GIST else line

    @property
    def wrong(self) -> tuple[Field, ...]:
        """The fields to mend, in order."""
        return tuple(one for one in fields_of(self.groups) if one.place in self.faults)

    @property
    def count(self) -> int:
        """How many faults are shown."""
        return len(self.wrong) + len(self.elsewhere)


def fields_of(groups: Iterable[Group]) -> tuple[Field, ...]:
    """Return every field of the groups, in order."""
    return tuple(one for group in groups for one in group.fields)


def typed(
    groups: tuple[Group, ...],
    values: Mapping[str, str],
    offers: Mapping[str, tuple[str, ...]] | None = None,
) -> Form:
    """Return the form as it came back, every field as typed; what is no field is left out."""
    names = {one.place for one in fields_of(groups)}
    kept = {name: text for name, text in values.items() if name in names}
    return Form(groups, kept, offers=offers or {})


def with_faults(form: Form, error: AppError) -> Form:
    """Return the form with each fault beside the field it speaks of."""
    fields = fields_of(form.groups)
    at: dict[str, AppError] = {}
    elsewhere: list[AppError] = []
    for fault in error.faults if isinstance(error, Faults) else (error,):
        found = _field_at(fault.where, fields)
        if found is None or found.place in at:
            elsewhere.append(fault)
        else:
            at[found.place] = fault
    return Form(form.groups, form.values, at, tuple(elsewhere), form.offers)


def _field_at(where: str, fields: Sequence[Field]) -> Field | None:
    """Return the field of a place, else the one that holds it, else the first inside it."""
    for one in fields:
        if one.place == where:
            return one
    for one in sorted(fields, key=lambda one: -len(one.place)):
        if where.startswith((f"{one.place}.", f"{one.place}[")):
            return one
    for one in fields:
        if where and one.place.startswith((f"{where}.", f"{where}[")):
            return one
    return None


def shown(table: Mapping[str, Any], fields: Iterable[Field]) -> dict[str, str]:
    """Return the text of every field that the table fills."""
    texts = {one.place: _as_text(_get(table, steps_of(one.place))) for one in fields}
    return {place: text for place, text in texts.items() if text}


def filled(base: Mapping[str, Any], fields: Sequence[Field], values: Mapping[str, str]) -> Table:
    """Return a copy of `base` with the fields as typed; a field left as shown keeps its value.

    So a correction of one field returns all others exactly as they were stored.
    """
    out = deepcopy(dict(base))
    before = shown(base, fields)
    faults: list[AppError] = []
    for one in fields:
        text = values.get(one.place, "").strip()
        if text == before.get(one.place, "").strip():
            continue
        try:
            _set(out, steps_of(one.place), _as_value(text, one))
        except InputError as error:
            faults.append(error.at(one.place))
    if faults:
        raise Faults(faults)
    return _pruned(out)


def steps_of(place: str) -> tuple[Step, ...]:
    """Return ``a.b[1].c`` as steps, lists counted from nought."""
    return tuple(int(number) - 1 if number else name for name, number in _STEP.findall(place))


def _get(table: Any, steps: Sequence[Step]) -> Any:
    for step in steps:
        if isinstance(step, int):
            if not isinstance(table, list) or not 0 <= step < len(table):
                return None
            table = table[step]
        else:
            if not isinstance(table, Mapping):
                return None
            table = table.get(step)
    return table


def _set(table: Any, steps: Sequence[Step], value: Any) -> None:
    """Put a value at a place, making tables and lists on the way; None empties it."""
    if value is None and _get(table, steps) is None:
        return
    for step, following in pairwise(steps):
        fresh: Any = [] if isinstance(following, int) else {}
        if isinstance(step, int):
            table += [None] * (step + 1 - len(table))
            if not isinstance(table[step], dict | list):
                table[step] = fresh
            table = table[step]
        else:
            if not isinstance(table.get(step), dict | list):
                table[step] = fresh
            table = table[step]
    last = steps[-1]
    if isinstance(last, int):
        table += [None] * (last + 1 - len(table))
        table[last] = value
    elif value is None:
        table.pop(last, None)
    else:
        table[last] = value


def _as_text(value: Any) -> str:
    if value is None or isinstance(value, Mapping):
        return ""
    if isinstance(value, bool):
        return "yes" if value else ""
    if isinstance(value, datetime):
        return value.isoformat(sep=" ", timespec="minutes" if not value.second else "seconds")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list):
        return "; ".join(_as_text(one) for one in value)
    return str(value)


def _as_value(text: str, one: Field) -> Any:
    if not text:
        return None
    check_text(text)
    if one.kind == "flag":
        return text == "yes"
    if one.kind == "repeats" and ";" in text:
        return [part.strip() for part in text.split(";") if part.strip()]
    if one.kind in ("date", "moment"):
        return _as_date(text, one.kind)
    if one.kind == "number":
        return _as_number(text)
    return text


def check_text(text: str) -> None:
    """Refuse text that can't be printed, or that is longer than anybody types."""
    if _UNPRINTABLE.search(text):
        raise InputError("holds a character that can't be printed", fix="Type it anew.")
    if len(text) > LONGEST:
        raise OutOfBounds(
            "far too long", got=f"{len(text)} characters", fix=f"Keep to {LONGEST} characters."
        )


def _as_number(text: str) -> float | str:
    """Return the number; what is none stays as typed, for the document to refuse."""
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return text


def _as_date(text: str, kind: str) -> date | datetime:
    try:
        return date.fromisoformat(text) if kind == "date" else datetime.fromisoformat(text)
    except ValueError as error:
        example = "2026-05-09" if kind == "date" else "2026-05-09 10:20"
        raise InputError(
            "this is no date" if kind == "date" else "this is no date and time",
            got=text[:80],
            fix=f'Write it as "{example}".',
        ) from error


def _pruned(table: Table) -> Table:
    """Return the table without empty parts; lists keep their places up to the last filled one."""
    out: Table = {}
    for name, value in table.items():
        kept = _pruned_value(value)
        if kept not in (None, {}, []):
            out[name] = kept
    return out


def _pruned_value(value: Any) -> Any:
    if isinstance(value, dict):
        return _pruned(value)
    if isinstance(value, list):
        parts = [_pruned_value(part) for part in value]
        while parts and parts[-1] in (None, {}, []):
            parts.pop()
        tables = any(isinstance(part, dict) for part in parts)
        return [({} if tables else "") if part is None else part for part in parts]
    return value


def differences(
    before: Mapping[str, Any], after: Mapping[str, Any]
) -> Iterator[tuple[str, str, str]]:
    """Yield (place, old text, new text) for every leaf that differs."""
    old, new = dict(leaves(before)), dict(leaves(after))
    for place in dict.fromkeys([*old, *new]):
        if old.get(place) != new.get(place):
            yield place, old.get(place, ""), new.get(place, "")


def leaves(table: Any, place: str = "") -> Iterator[tuple[str, str]]:
    """Yield every filled place of a table with its text."""
    if isinstance(table, Mapping):
        for name, value in table.items():
            yield from leaves(value, f"{place}.{name}" if place else str(name))
    elif isinstance(table, list):
        for number, value in enumerate(table, start=1):
            yield from leaves(value, f"{place}[{number}]")
    elif table is not None:
        yield place, "yes" if table is True else "no" if table is False else _as_text(table)
