"""The kinds of document that a notebook keeps, and which validator belongs to each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ozonewright.documents.entry import EntryDocument
from ozonewright.documents.load import split_runs
from ozonewright.documents.reaction import ReactionDocument
from ozonewright.documents.rig import RigDocument
from ozonewright.documents.room import RoomDocument
from ozonewright.documents.run import RunDocument
from ozonewright.documents.section import Section, validated
from ozonewright.errors import AppError, Faults, Inconsistent, InputError, MissingValue, nearest


@dataclass(frozen=True, slots=True)
class Kind:
    """What the notebook must know of a kind of document."""

    model: type[Section]
    readings: tuple[str, ...] = ()
    """Places that "as last time, but" leaves empty: they have to be read anew."""
    names: tuple[str, ...] = ()
    """Fields that name another entry, whose kind is the field; the notebook pins its revision."""
    group: str = "setting"
    """The field by which entries of the kind are asked for together."""


KINDS: dict[str, Kind] = {
    "run": Kind(
        RunDocument,
        readings=(
            "run.label",
            "run.remark",
            "run.started",
            "run.on_time",
            "run.rest_before",
            "run.collected",
            "run.rate",
            "titration.titres",
        ),
        names=("rig", "room"),
    ),
    "reaction": Kind(
        ReactionDocument,
        readings=("reaction.label", "reaction.remark"),
        names=("rig", "room"),
    ),
    "rig": Kind(RigDocument, readings=("rig.label", "rig.remark")),
    "room": Kind(RoomDocument, readings=("room.label", "room.remark")),
    "entry": Kind(
        EntryDocument,
        readings=(
            "entry.when",
            "entry.value",
            "entry.remark",
            "entry.clock",
            "entry.sent_after",
        ),
        group="of",
    ),
}
"""By the name of the table that every document of the kind has. A new kind is one line here."""


def kind_of(name: str) -> Kind:
    """Return what is known of a kind."""
    if name not in KINDS:
        raise InputError("this kind of document is not known", got=name, fix=nearest(name, KINDS))
    return KINDS[name]


def check(name: str, data: Mapping[str, Any]) -> None:
    """Raise every fault of a document of this kind."""
    validated(kind_of(name).model, data)


def documents_in(table: Mapping[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    """Return (kind, data) for each document of a file, checked; all faults at once."""
    kinds = [name for name in KINDS if name in table]
    if not kinds:
        known = " or ".join(f"[{name}]" for name in KINDS)
        raise MissingValue(
            "no document that a notebook keeps is written here",
            got=", ".join(list(table)[:5]),
            fix=f"Begin with {known}.",
        )
    if len(kinds) > 1:
        raise Inconsistent(
            "two kinds of document in one file",
            got=" and ".join(kinds),
            fix="Give each a file of its own.",
        )
    kind, faults, found = kinds[0], [], []
    for place, alone, data in _split(kind, table):
        try:
            check(kind, data)
        except Faults as several:
            faults += [fault if alone else _under(place, fault) for fault in several]
        found.append((kind, data))
    if faults:
        raise Faults(faults)
    if not found:
        raise MissingValue(
            "the list holds no document",
            where=kind,
            got="[]",
            fix=f"Write [{kind}] and its fields below it.",
        )
    return found


def _split(kind: str, table: Mapping[str, Any]) -> Iterator[tuple[str, bool, dict[str, Any]]]:
    if kind == "run":
        yield from split_runs(table)
    elif isinstance(table[kind], list):
        for number, one in enumerate(table[kind], start=1):
            yield f"{kind}[{number}]", False, {kind: one}
    else:
        yield kind, True, dict(table)


def _under(place: str, fault: AppError) -> AppError:
    kind = place.partition("[")[0]
    inside = fault.where.removeprefix(f"{kind}.").removeprefix(kind)
    where = f"{place}.{inside}" if inside else place
    return type(fault)(fault.what, where=where, got=fault.got, fix=fault.fix)
