"""A notebook as a folder of text: one TOML document per revision, and an index of all.

The documents are what a person typed, and can be read by every command. The index,
``notebook.toml``, holds what the notebook itself wrote down about each revision.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

import tomlkit

from ozonewright import __version__
from ozonewright.errors import AppError, Faults, Inconsistent, InputError, SchemaTooNew, Unwritable
from ozonewright.notebook.acts import Draft

INDEX = "notebook.toml"
FORMAT = 1
LONGEST_NAME = 40


@dataclass(frozen=True, slots=True)
class Carried:
    """A revision on its way from one notebook to another."""

    draft: Draft
    digest: str
    revision: int
    entry: int
    aside: bool
    results: tuple[Mapping[str, str], ...] = ()


def write_folder(directory: Path, book: Mapping[str, Any], revisions: Sequence[Carried]) -> None:
    """Write the folder; the index comes last, so a broken-off export is not taken for a whole."""
    try:
        if directory.exists() and any(directory.iterdir()):
            raise InputError(
                "the folder is not empty",
                where=str(directory),
                fix="Give an export a new folder.",
            )
        directory.mkdir(parents=True, exist_ok=True)
        index = [tomlkit.dumps(_head(book))]
        written: dict[str, tuple[Mapping[str, Any], str]] = {}
        for one in revisions:
            data, name = written.get(one.draft.id, (None, ""))
            if data != one.draft.data:
                name = _file_name(one)
                _write(directory / name, tomlkit.dumps(one.draft.data))
                written[one.draft.id] = (one.draft.data, name)
            index.append(tomlkit.dumps({"revision": [_record(one, name)]}))
        _write(directory / INDEX, "\n".join(index))
    except OSError as error:
        raise Unwritable(
            "the export can't be written",
            where=str(directory),
            got=error.strerror or "",
            fix="Choose a folder that you may write to and that has room; this one is incomplete.",
        ) from error


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(exist_ok=True)
    # Line ends as they are: a carriage return inside a text is part of it.
    path.write_text(text, encoding="utf-8", newline="\n")


def _head(book: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "notebook": {
            "format": FORMAT,
            "id": book["id"],
            "label": book["label"],
            "created": datetime.fromisoformat(book["created"]),
            "written_by": f"ozonewright {__version__}",
        }
    }


def _file_name(one: Carried) -> str:
    """Return a name that every file system takes, whatever the label."""
    label = re.sub(r"[^\w-]+", "-", one.draft.label, flags=re.ASCII).strip("-")[:LONGEST_NAME]
    later = f"-r{one.revision}" if one.revision > 1 else ""
    return f"{one.draft.kind}/{one.entry:04}-{label or 'x'}{later}.toml"


def _record(one: Carried, name: str) -> dict[str, Any]:
    draft = one.draft
    record = {
        "file": name,
        "entry": draft.id,
        "kind": draft.kind,
        "label": draft.label,
        "number": one.revision,
        "place": one.entry,
        "deed": draft.deed,
        "when": datetime.fromisoformat(draft.at),
        "reason": draft.reason,
        "source": draft.source,
        "withdrawn": draft.withdrawn or None,
        "aside": one.aside or None,
        "digest": one.digest,
        "parent": draft.parent,
        "undoes": draft.undoes,
        "offsets": dict(draft.offsets or {}) or None,
        "pins": dict(draft.pins or {}) or None,
        "result": [dict(result) for result in one.results] or None,
    }
    return {key: value for key, value in record.items() if value is not None}


def read_folder(directory: Path) -> list[Carried]:
    """Read an export; a document changed since is refused, all of them named at once."""
    index = _table(directory / INDEX, directory)
    form = index.get("notebook", {}).get("format")
    if not isinstance(form, int) or form > FORMAT:
        raise SchemaTooNew(
            "this export was written by a newer ozonewright",
            where=str(directory / INDEX),
            got=str(form),
            fix="Import it with the newer program.",
        )
    faults: list[AppError] = []
    found: list[Carried] = []
    tables: dict[str, dict[str, Any]] = {}
    for record in index.get("revision", []):
        try:
            found.append(_carried(record, directory, tables))
        except AppError as error:
            faults.append(error)
        except (KeyError, TypeError, AttributeError, ValueError) as error:
            faults.append(_broken(directory / INDEX, str(error)))
    if faults:
        raise Faults(faults)
    return found


def _carried(
    record: Mapping[str, Any], directory: Path, tables: dict[str, dict[str, Any]]
) -> Carried:
    name = record["file"]
    path = directory / name
    if not path.resolve().is_relative_to(directory.resolve()):
        raise _broken(directory / INDEX, f"{name} lies outside the folder")
    if name not in tables:
        tables[name] = _table(path, directory)
    one = Carried(
        draft=Draft(
            id=record["entry"],
            kind=record["kind"],
            parent=record.get("parent"),
            deed=record["deed"],
            at=record["when"].isoformat(),
            label=record["label"],
            source=record["source"],
            data=tables[name],
            reason=record.get("reason"),
            undoes=record.get("undoes"),
            withdrawn=record.get("withdrawn", False),
            offsets=record.get("offsets", {}),
            pins=record.get("pins", {}),
        ),
        digest=record["digest"],
        revision=record["number"],
        entry=record["place"],
        aside=record.get("aside", False),
        results=tuple(_results(record.get("result", []))),
    )
    if one.draft.digest != one.digest:
        raise Inconsistent(
            "this document was changed since it was exported",
            where=str(path),
            fix="Import it as it was exported; then correct the entry with a reason.",
        )
    return one


def _results(records: Sequence[Mapping[str, str]]) -> Iterator[Mapping[str, str]]:
    for record in records:
        json.loads(record["values"])
        yield {key: str(record[key]) for key in ("kind", "version", "at", "values")}


def _table(path: Path, directory: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except FileNotFoundError as error:
        raise InputError(
            "this is not the folder of an export, or a part is missing",
            where=str(path),
            fix="Give the folder that ozonewright notebook export wrote, or a notebook file.",
        ) from error
    except OSError as error:
        raise InputError(
            "the export can't be read",
            where=str(path),
            got=error.strerror or "",
            fix="Check that the folder may be read.",
        ) from error
    except ValueError as error:
        raise _broken(path, str(error)) from error


def _broken(path: Path, why: str) -> InputError:
    return InputError(
        "the export is broken here", where=str(path), got=why, fix="Export the notebook again."
    )
