"""A table of a document: its fields, how each is read, and how all faults of it come out together.

A document is a class below `Section`. A field is an annotated name: a text, a truth, a plain
number, a date, one word of several (`Literal`), another section, any table (`dict`), a tuple of one
of these, `Annotated[type, Reader]` for whatever a function reads, or `Annotated[type, ByWord]` for
a table whose own word says which section it is. ``| None`` and a default make it a field that may
be left out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from math import isfinite
from types import NoneType, UnionType
from typing import (
    Annotated,
    Any,
    Literal,
    NamedTuple,
    TypeVar,
    Union,
    get_args,
    get_origin,
    get_type_hints,
)

from ozonewright.errors import AppError, Faults, InputError, MissingValue, nearest

LONGEST = 80
"""Letters of what was given that a message repeats."""
UNREADABLE = object()
REQUIRED = object()


class Reader(NamedTuple):
    """The function that reads a field: from what is written to its value, or an error."""

    read: Callable[[object], Any]


@dataclass(frozen=True, slots=True)
class ByWord:
    """Which section a table is, by the word it writes in one of its fields."""

    field: str
    sections: Mapping[str, type[Section]]


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a document something stands, with the faults of the document found so far."""

    name: str
    faults: list[AppError]

    def at(self, step: str | int) -> Place:
        """Return a place further in: ``absorber.bottles[2].volume``, lists counted from 1."""
        if isinstance(step, int):
            return Place(f"{self.name}[{step + 1}]", self.faults)
        return Place(f"{self.name}.{step}" if self.name else step, self.faults)

    @property
    def field(self) -> str:
        """The name of the field, without the tables it stands in and the place in its list."""
        return self.name.rpartition(".")[2].partition("[")[0]

    def refuse(self, error: AppError) -> object:
        """Keep a fault of this place."""
        self.faults.append(error.at(self.name) if self.name else error)
        return UNREADABLE

    def wants(self, what: str, got: object, fix: str) -> object:
        """Keep that something else is wanted here."""
        return self.refuse(InputError(what, got=as_written(got), fix=fix))


Plan = Callable[[object, Place], object]
"""Reads what is written at a place, or keeps the fault and gives `UNREADABLE`."""


class Field(NamedTuple):
    """A field of a section."""

    plan: Plan
    default: Any


KNOWN: dict[type[Section], dict[str, Field]] = {}
"""The fields of every section asked for so far: type hints take long to work out."""


class Given:
    """What stands in a table: which fields are written, and the values that could be read."""

    def __init__(self, written: Mapping[str, Any], readable: Mapping[str, Any]) -> None:
        self.written, self.readable = written, readable

    def __contains__(self, name: str) -> bool:
        return self.written.get(name) is not None

    def __getitem__(self, name: str) -> Any:
        """Return the value of a field, or None where it is empty or could not be read."""
        return self.readable.get(name)


class Section:
    """A table of a document: unknown words are refused, nothing changes once read."""

    def __init__(self, **values: Any) -> None:
        for name, field in fields_of(type(self)).items():
            object.__setattr__(self, name, values.get(name, field.default))

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} does not change once it is read")

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{k}={v!r}' for k, v in vars(self).items())})"

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        """Yield what is missing beside, or at odds with, what is given."""
        yield from ()


Model = TypeVar("Model", bound=Section)


def validated(model: type[Model], data: Mapping[str, Any]) -> Model:
    """Return the section written in a table.

    Raises
    ------
    Faults
        Every fault of the table and of the tables in it, each with its place.
    """
    faults: list[AppError] = []
    section = _section(model, data, Place("", faults))
    if faults:
        raise Faults(faults)
    return section


def _section(model: type[Model], data: Mapping[str, Any], place: Place) -> Model:
    fields = fields_of(model)
    values: dict[str, Any] = {}
    for name, field in fields.items():
        here = place.at(name)
        if name not in data:
            if field.default is REQUIRED:
                fix = f"Write {name} = … as it was read."
                here.refuse(MissingValue("this is missing", fix=fix))
            else:
                values[name] = field.default
        elif (value := field.plan(data[name], here)) is not UNREADABLE:
            values[name] = value
    for name in data:
        if name not in fields:
            fix = nearest(str(name), fields)
            place.at(str(name)).refuse(InputError("this word is not known here", fix=fix))
    for fault in model.contradictions(Given(data, values)):
        place.refuse(fault)
    return model(**values)


def fields_of(model: type[Section]) -> dict[str, Field]:
    """Return the fields of a section by name, in the order they are written in the class."""
    if model not in KNOWN:
        hints = get_type_hints(model, include_extras=True)
        KNOWN[model] = {
            name: Field(_plan(hint), getattr(model, name, REQUIRED)) for name, hint in hints.items()
        }
    return KNOWN[model]


def _plan(hint: Any) -> Plan:
    """Return how a field of this type is read."""
    origin, parts = get_origin(hint), get_args(hint)
    if origin is Annotated:
        (mark,) = (mark for mark in hint.__metadata__ if isinstance(mark, Reader | ByWord))
        return _by(mark) if isinstance(mark, Reader) else _by_word(mark)
    if origin in (Union, UnionType):
        (inner,) = (part for part in parts if part is not NoneType)
        return _perhaps(_plan(inner))
    if origin is Literal:
        return _one_of(parts)
    if origin is tuple:
        return _several(_plan(parts[0]))
    if origin is dict:
        return _any_table
    if issubclass(hint, Section):
        return _table(hint)
    return SIMPLE[hint]


def _by(reader: Reader) -> Plan:
    def plan(value: object, place: Place) -> object:
        try:
            return reader.read(value)
        except Faults as several:
            for fault in several:
                place.refuse(fault)
            return UNREADABLE
        except AppError as error:
            return place.refuse(error)

    return plan


def _by_word(mark: ByWord) -> Plan:
    def plan(value: object, place: Place) -> object:
        if not isinstance(value, Mapping):
            return _no_table(value, place)
        word = value.get(mark.field)
        if isinstance(word, str) and word in mark.sections:
            return _table(mark.sections[word])(value, place)
        if word is None:
            fix = f'Write {mark.field} = "{next(iter(mark.sections))}", or another.'
            return place.at(mark.field).refuse(MissingValue("this is missing", fix=fix))
        fix = nearest(str(word), mark.sections)
        return place.at(mark.field).wants("this word is not known here", word, fix)

    return plan


def _perhaps(inner: Plan) -> Plan:
    return lambda value, place: None if value is None else inner(value, place)


def _one_of(choices: tuple[str, ...]) -> Plan:
    *most, last = (f'"{choice}"' for choice in choices)
    told = f"{', '.join(most)} or {last}" if most else last

    def plan(value: object, place: Place) -> object:
        if isinstance(value, str) and value in choices:
            return value
        return place.wants("this word is not one of the choices", value, f"Write {told}.")

    return plan


def _several(each: Plan) -> Plan:
    def plan(value: object, place: Place) -> object:
        if not isinstance(value, list | tuple):
            fix = f"Write {place.field} = [ … ], one for each bottle."
            if isinstance(value, Mapping):
                fix = f"Write [[{place.field}]] in double brackets for each."
            return place.wants("a list is wanted", value, fix)
        found = tuple(each(one, place.at(step)) for step, one in enumerate(value))
        return UNREADABLE if any(one is UNREADABLE for one in found) else found

    return plan


def _table(model: type[Section]) -> Plan:
    def plan(value: object, place: Place) -> object:
        if isinstance(value, model):
            return value
        if not isinstance(value, Mapping):
            return _no_table(value, place)
        before = len(place.faults)
        found = _section(model, value, place)
        return found if len(place.faults) == before else UNREADABLE

    return plan


def _any_table(value: object, place: Place) -> object:
    return dict(value) if isinstance(value, Mapping) else _no_table(value, place)


def _no_table(value: object, place: Place) -> object:
    if place.name.endswith("]"):
        fix = f"Write {place.field} = [ {{ name = … }}, … ]: a table in braces for each."
        return place.wants("a table is wanted", value, fix)
    table = ".".join(part.partition("[")[0] for part in place.name.split("."))
    return place.wants("a table is wanted", value, f"Write [{table}] with its fields below.")


def _number(value: object, place: Place) -> object:
    if isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value):
        return float(value)
    return place.wants("a plain number is wanted", value, f"Write {place.field} = 1.10.")


def _count(value: object, place: Place) -> object:
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    return place.wants("a whole number is wanted", value, f"Write {place.field} = 2.")


def _text(value: object, place: Place) -> object:
    if isinstance(value, str):
        return value
    return place.wants("text is wanted", value, f'Write it in quotes: {place.field} = "…".')


def _truth(value: object, place: Place) -> object:
    if isinstance(value, bool):
        return value
    fix = f"Write {place.field} = true, without quotes."
    return place.wants("true or false is wanted", value, fix)


def _moment(value: object, place: Place) -> object:
    if isinstance(value, datetime):
        return value
    if isinstance(value, str):
        try:
            return datetime.fromisoformat(value)
        except ValueError:
            pass
    fix = f"Write {place.field} = 2026-05-09T10:20:00, without quotes."
    return place.wants("a date with its time is wanted", value, fix)


def _day(value: object, place: Place) -> object:
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    if isinstance(value, str):
        try:
            return date.fromisoformat(value)
        except ValueError:
            pass
    fix = f"Write {place.field} = 2026-05-09, without quotes."
    return place.wants("a date is wanted", value, fix)


SIMPLE: dict[type, Plan] = {
    str: _text,
    bool: _truth,
    int: _count,
    float: _number,
    datetime: _moment,
    date: _day,
}


def as_written(value: object) -> str:
    """Return a value about as TOML writes it, cut to what a message can hold."""
    if isinstance(value, bool):
        return str(value).lower()
    text = str(value)
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"
