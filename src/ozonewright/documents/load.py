"""From a file or a table to validated documents, with every fault of it reported at once."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from ozonewright.documents.run import RunDocument
from ozonewright.documents.section import as_written, fields_of, validated
from ozonewright.errors import AppError, Faults, InputError, MissingValue, nearest

SECTIONS = tuple(name for name in fields_of(RunDocument) if name != "run")
LARGEST_FILE = 5_000_000


def read_table(path: Path) -> dict[str, Any]:
    """Return the table written in a TOML file."""
    where = str(path)
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            what, fix = "the file is far too large for a document", "Give the file of a few runs."
            raise InputError(what, where=where, got=f"{size} bytes", fix=fix)
        # editors on Windows may begin a file with a byte-order mark
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        what = "the file is not text in UTF-8"
        raise InputError(what, where=where, fix="Save it as UTF-8.") from error
    except (OSError, ValueError) as error:
        got = getattr(error, "strerror", None) or ""
        fix = "Check its name and folder."
        raise InputError("the file can't be read", where=where, got=got, fix=fix) from error
    try:
        return read_text(text)
    except InputError as error:
        raise error.at(where) from error


def read_text(text: str) -> dict[str, Any]:
    """Return the table written in TOML text."""
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        raise InputError(
            "this is not TOML",
            got=as_written(error),
            fix='Lines read name = "value with unit"; tables start with [name].',
        ) from error


def runs_of(table: Mapping[str, Any]) -> tuple[tuple[str, RunDocument], ...]:
    """Return the run documents of a table, each with its place; all faults at once."""
    faults: list[AppError] = []
    documents: list[tuple[str, RunDocument]] = []
    for place, alone, data in split_runs(table):
        try:
            documents.append((place, validated(RunDocument, data)))
        except Faults as found:
            faults += found if alone else (placed(fault, place, table) for fault in found)
    if faults:
        raise Faults({str(fault): fault for fault in faults}.values())
    return tuple(documents)


def split_runs(table: Mapping[str, Any]) -> Iterator[tuple[str, bool, dict[str, Any]]]:
    """Yield (place, alone, data) for each run; sections outside a run hold for every run."""
    runs = table.get("run")
    if runs is None:
        near = nearest(next(iter(table)), ["run", *SECTIONS]) + " " if table else ""
        fix = near + 'Begin with [run] and on_time = "240 s".'
        raise Faults([MissingValue("no [run] is written here", fix=fix)])
    shared = {name: value for name, value in table.items() if name != "run"}
    if isinstance(runs, dict):
        yield "run", True, _with_sections(runs, shared)
        return
    if not isinstance(runs, list) or not runs or not all(isinstance(run, dict) for run in runs):
        fix = "Write [run], or [[run]] for each of several."
        raise Faults([InputError("run must be a table", got=as_written(runs), fix=fix)])
    for number, run in enumerate(runs, start=1):
        yield f"run[{number}]", False, _with_sections(run, shared)


def _with_sections(run: Mapping[str, Any], shared: Mapping[str, Any]) -> dict[str, Any]:
    """Return one document: [run.gas] beside or under the [gas] that all runs share."""
    own = {name: value for name, value in run.items() if name in SECTIONS}
    bare = {name: value for name, value in run.items() if name not in SECTIONS}
    return {"run": bare, **_merged(shared, own)}


def _merged(under: Mapping[str, Any], over: Mapping[str, Any]) -> dict[str, Any]:
    out = dict(under)
    for name, value in over.items():
        below = out.get(name)
        if isinstance(below, dict) and isinstance(value, dict):
            value = _merged(below, value)
        out[name] = value
    return out


def placed(fault: AppError, place: str, table: Mapping[str, Any]) -> AppError:
    """Name the place as the file has it: ``run[2].gas.flow``, or ``gas.flow`` for all runs."""
    number = int(place.removeprefix("run[").removesuffix("]")) - 1
    own, shared, here = table["run"][number], table, fault.where
    for step in here.split("."):
        name = step.partition("[")[0]
        if name == "run" or (isinstance(own, dict) and name in own):
            own = own if name == "run" else own[name]
            shared = shared.get(name, {}) if isinstance(shared, dict) else {}
        elif isinstance(shared, dict) and name in shared:
            return fault
        else:
            break
    inside = here.removeprefix("run.").removeprefix("run")
    where = f"{place}.{inside}" if inside else place
    return type(fault)(fault.what, where=where, got=fault.got, fix=fault.fix)
