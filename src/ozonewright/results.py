"""One declaration per result field: kind, unit shown, words; from it JSON key, label and table row.

A result is a frozen dataclass below `Result`. Its fields are made by `quantity` (a number with
perhaps an uncertainty), `fact` (text, truth or count), `part` and `listing` (a row or rows of
another declared class). Nothing else may stand in a result, so that nothing is shown that was not
declared.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Literal

from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number, size, slug

Level = Literal["wrong", "doubt", "advice"]
"""``wrong``: can't be true; ``doubt``: may have moved the result; ``advice``: would be better."""


@dataclass(frozen=True, slots=True)
class Note:
    """A code with SI values and names; `show` holds the words."""

    code: str
    level: Level = "doubt"
    values: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Quantity:
    """The declaration of a number in a result."""

    kind: Kind
    unit: str
    words: str
    stem: str
    exact: bool = False
    """A number that carries no uncertainty of its own, such as a share of a budget."""
    worded: str = ""
    """The unit as the key words it, where that says more than the unit: ``per_clock_hour``."""

    @property
    def key(self) -> str:
        """The JSON key, which ends in the unit."""
        return "_".join(part for part in (self.stem, self.worded or slug(self.unit)) if part)

    def plain(self, value: float | None) -> float | None:
        """Return an SI value as a number of the declared unit."""
        return None if value is None else number(value, self.kind, self.unit)

    def plain_spread(self, u: float) -> float:
        """Return an SI uncertainty as a number of the declared unit."""
        return u / size(self.kind, self.unit)


@dataclass(frozen=True, slots=True)
class Fact:
    """The declaration of a text, a truth or a count in a result."""

    words: str


@dataclass(frozen=True, slots=True)
class Part:
    """The declaration of one row of another declared class, or None."""

    words: str


@dataclass(frozen=True, slots=True)
class Listing:
    """The declaration of a list of rows, each a declared class of its own."""

    words: str


@dataclass(frozen=True, slots=True)
class ByName:
    """The declaration of bare SI numbers of one kind, by name."""

    kind: Kind
    unit: str
    words: str
    key: str


def quantity(
    kind: Kind, unit: str, words: str, *, stem: str, exact: bool = False, worded: str = ""
) -> Any:
    """Declare a number: an `Estimate`, a bare SI float, or None when it can't be known."""
    declaration = Quantity(kind, unit, words, stem, exact, worded)
    return field(default=None, metadata={"declared": declaration})


def fact(words: str, default: Any = None) -> Any:
    """Declare a text, a truth, or a count."""
    return field(default=default, metadata={"declared": Fact(words)})


def part(words: str) -> Any:
    """Declare one row of another declared class."""
    return field(default=None, metadata={"declared": Part(words)})


def listing(words: str) -> Any:
    """Declare a list of rows."""
    return field(default=(), metadata={"declared": Listing(words)})


def by_name(kind: Kind, unit: str, words: str, *, key: str) -> Any:
    """Declare a mapping of names to bare SI numbers of one kind."""
    return field(default_factory=dict, metadata={"declared": ByName(kind, unit, words, key)})


@dataclass(frozen=True, kw_only=True)
class Row:
    """A line of a listing: declared fields, no notes of its own."""


@dataclass(frozen=True, kw_only=True)
class Share(Row):
    """One line of an uncertainty budget."""

    input: str = fact("reading", "")
    share: float | None = quantity(
        Kind.SHARE, "%", "share of the variance", stem="share", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class Result(Row):
    """What every answer carries besides its own fields."""

    working: tuple[Note, ...] = ()
    """The sum, line by line, for a pocket calculator."""
    notes: tuple[Note, ...] = ()
    next: tuple[Any, ...] = ()
    """What to do next, most useful first: notes, or rows where a question declares them."""
    unknowns: tuple[str, ...] = ()
    """Places of the document that were left empty and that some answer waits for."""
    sources: tuple[str, ...] = ()
    methods: tuple[str, ...] = ()


Declared = Quantity | Fact | Listing | Part | ByName


def declared(row: type[Row] | Row) -> Iterator[tuple[str, Declared]]:
    """Yield each field's name and declaration, in order."""
    for item in dataclasses.fields(row):
        if "declared" in item.metadata:
            yield item.name, item.metadata["declared"]


def plain(row: Row, words: Callable[[Note], str]) -> dict[str, Any]:
    """Return a result as one object of JSON types, keys ending in their units."""
    out: dict[str, Any] = {}
    for name, declaration in declared(row):
        value = getattr(row, name)
        if isinstance(declaration, Quantity):
            out |= _plain_quantity(declaration, value)
        elif isinstance(declaration, Listing):
            out[name] = [plain(line, words) for line in value]
        elif isinstance(declaration, Part):
            out[name] = None if value is None else plain(value, words)
        elif isinstance(declaration, ByName):
            kind, unit = declaration.kind, declaration.unit
            out[declaration.key] = {each: number(si, kind, unit) for each, si in value.items()}
        else:
            out[name] = _plain_fact(value, words)
    if isinstance(row, Result):
        out["working"] = [words(line) for line in row.working]
        out["notes"] = [_plain_note(note, words) for note in row.notes]
        if "next" not in out:
            out["next"] = [_plain_note(note, words) for note in row.next]
        out["unknowns"] = list(row.unknowns)
        out["sources"] = list(row.sources)
        out["method_names"] = list(row.methods)
    return out


def _plain_quantity(declaration: Quantity, value: Estimate | float | None) -> dict[str, Any]:
    key = declaration.key
    if isinstance(value, Estimate):
        low, high = value.interval
        return {
            key: declaration.plain(value.value),
            f"u_{key}": declaration.plain_spread(value.u),
            f"interval_{key}": [declaration.plain(low), declaration.plain(high)],
        }
    if declaration.exact:
        return {key: declaration.plain(value)}
    return {key: declaration.plain(value), f"u_{key}": None, f"interval_{key}": None}


def _plain_fact(value: Any, words: Callable[[Note], str]) -> Any:
    if isinstance(value, tuple):
        return [_plain_fact(each, words) for each in value]
    if isinstance(value, Note):
        return words(value)
    return value.isoformat() if isinstance(value, date) else value


def _plain_note(note: Note, words: Callable[[Note], str]) -> dict[str, str]:
    return {"code": note.code, "text": words(note), "level": note.level}
