"""Whether documents are sound, and what they leave open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ozonewright.bench.load import Source, load_runs, table_of
from ozonewright.bench.rig import rig_of
from ozonewright.documents.kinds import documents_in
from ozonewright.errors import AppError, Faults
from ozonewright.questions.gas_line.gaps import unknowns
from ozonewright.questions.output import output
from ozonewright.questions.output.gaps import Gaps, gaps


def check(sources: Sequence[Source]) -> tuple[Gaps, ...]:
    """Return the gaps of every document; faults are raised together."""
    faults: list[AppError] = []
    found: list[Gaps] = []
    for source in sources:
        try:
            table = table_of(source)
            found += _others(table) if "run" not in table and "rig" in table else _runs(table)
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
        rig = rig_of(data)
        found.append(Gaps(kind=kind, label=rig.label, place=kind, unknowns=unknowns(rig)))
    return found


def _in_file(fault: AppError, source: Source, count: int) -> AppError:
    if count == 1 or not isinstance(source, str):
        return fault
    where = f"{source}: {fault.where}" if fault.where else f"{source}"
    return type(fault)(fault.what, where=where, got=fault.got, fix=fault.fix)
