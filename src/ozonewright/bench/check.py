"""Whether documents are sound, and what they leave open."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from ozonewright.bench.load import Source, load_runs, table_of
from ozonewright.bench.rig import rig_of
from ozonewright.documents.convert_reaction import reaction_record
from ozonewright.documents.kinds import documents_in
from ozonewright.documents.reaction import ReactionDocument
from ozonewright.documents.room import RoomDocument, room_record
from ozonewright.documents.section import validated
from ozonewright.errors import AppError, Faults
from ozonewright.questions.gas_line.gaps import unknowns as open_in_rig
from ozonewright.questions.output import output
from ozonewright.questions.output.gaps import Gaps, gaps
from ozonewright.questions.reaction.gaps import unknowns as open_in_reaction
from ozonewright.questions.room.gaps import unknowns as open_in_room


def check(sources: Sequence[Source]) -> tuple[Gaps, ...]:
    """Return the gaps of every document; faults are raised together."""
    faults: list[AppError] = []
    found: list[Gaps] = []
    for source in sources:
        try:
            table = table_of(source)
            known = "run" not in table and any(name in table for name in OTHERS)
            found += _others(table) if known else _runs(table)
        except AppError as error:
            several = error.faults if isinstance(error, Faults) else (error,)
            faults += [_in_file(fault, source, len(sources)) for fault in several]
    if faults:
        raise Faults(faults)
    return tuple(found)


def _runs(table: Mapping[str, Any]) -> list[Gaps]:
    return [gaps(output(run), run.place) for run in load_runs([table])]


def _others(table: Mapping[str, Any]) -> list[Gaps]:
    found = []
    for kind, data in documents_in(table):
        label, open_places = OTHERS[kind](data)
        found.append(Gaps(kind=kind, label=label, place=kind, unknowns=list(open_places)))
    return found


def _rig(data: Mapping[str, Any]) -> tuple[str | None, Sequence[str]]:
    rig = rig_of(data)
    return rig.label, open_in_rig(rig)


def _reaction(data: Mapping[str, Any]) -> tuple[str | None, Sequence[str]]:
    reaction = reaction_record(validated(ReactionDocument, data))
    return reaction.label, open_in_reaction(reaction)


def _room(data: Mapping[str, Any]) -> tuple[str | None, Sequence[str]]:
    room = room_record(validated(RoomDocument, data))
    return room.label, open_in_room(room)


OTHERS: dict[str, Callable[[Mapping[str, Any]], tuple[str | None, Sequence[str]]]] = {
    "rig": _rig,
    "reaction": _reaction,
    "room": _room,
}
"""How each kind besides the run says its label and what it leaves open."""


def _in_file(fault: AppError, source: Source, count: int) -> AppError:
    if count == 1 or not isinstance(source, str):
        return fault
    where = f"{source}: {fault.where}" if fault.where else f"{source}"
    return type(fault)(fault.what, where=where, got=fault.got, fix=fault.fix)
