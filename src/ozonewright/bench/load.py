"""From files or tables to records, with the faults of all of them at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from ozonewright import records
from ozonewright.documents.convert import run_record
from ozonewright.documents.load import read_table, runs_of
from ozonewright.errors import AppError, Faults

Source = str | Path | Mapping[str, Any]
"""A file of run documents, or the table read from one."""


def load_runs(sources: Sequence[Source]) -> tuple[records.Run, ...]:
    """Return the runs of all sources; the faults of all are raised together."""
    faults: list[AppError] = []
    found: list[records.Run] = []
    for source in sources:
        place = f"{source}: " if len(sources) > 1 and not isinstance(source, Mapping) else ""
        try:
            table = source if isinstance(source, Mapping) else read_table(Path(source))
            found += [run_record(document, where) for where, document in runs_of(table)]
        except Faults as several:
            faults += [_in_file(fault, place) for fault in several]
        except AppError as error:
            faults.append(error)
    if faults:
        raise Faults(faults)
    return tuple(found)


def _in_file(fault: AppError, place: str) -> AppError:
    return type(fault)(fault.what, where=place + fault.where, got=fault.got, fix=fault.fix)
