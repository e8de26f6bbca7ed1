"""From files or tables to records, with the faults of all of them at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, TextIO

from ozonewright.documents.convert import run_record
from ozonewright.documents.load import read_table, read_text, runs_of
from ozonewright.errors import AppError, Faults, InputError
from ozonewright.records import run as records

Source = str | Path | TextIO | Mapping[str, Any]
"""A file of run documents by name or open, or the table read from one."""


def load_runs(sources: Sequence[Source]) -> tuple[records.Run, ...]:
    """Return the runs of all sources; the faults of all are raised together."""
    faults: list[AppError] = []
    found: list[records.Run] = []
    for source in sources:
        named = isinstance(source, str | Path)
        place = f"{source}: " if named and len(sources) > 1 else ""
        try:
            runs = runs_of(table_of(source))
            found += [run_record(document, where) for where, document in runs]
        except Faults as several:
            faults += [_in_file(fault, place) for fault in several]
        except AppError as error:
            faults.append(error)
    if faults:
        raise Faults(faults)
    return tuple(found)


def table_of(source: Source) -> Mapping[str, Any]:
    """Return the table written in a source."""
    if isinstance(source, Mapping):
        return source
    if isinstance(source, str | Path):
        return read_table(Path(source))
    try:
        return read_text(source.read())
    except UnicodeDecodeError as error:
        raise InputError("this is not text in UTF-8", fix="Send it as UTF-8.") from error


def _in_file(fault: AppError, place: str) -> AppError:
    return type(fault)(fault.what, where=place + fault.where, got=fault.got, fix=fault.fix)
