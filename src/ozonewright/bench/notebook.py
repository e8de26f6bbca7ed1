"""The notebook and the questions asked of it: documents in, stored answers, verification."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import lru_cache
from math import isclose
from pathlib import Path
from typing import Any

from ozonewright import __version__
from ozonewright.bench.clock import now
from ozonewright.bench.load import load_runs
from ozonewright.bench.output import KEPT, outputs, outputs_of_runs
from ozonewright.documents.entry import PEROXIDE_TEST, QUENCH
from ozonewright.documents.kinds import documents_in
from ozonewright.documents.load import read_table
from ozonewright.documents.table import as_one, read_csv
from ozonewright.errors import (
    AppError,
    Faults,
    InputError,
    NotFound,
    OutOfBounds,
    nearest,
)
from ozonewright.notebook import Entry, Notebook, StoredResult
from ozonewright.questions.output import Output
from ozonewright.records.run import Run
from ozonewright.results import Quantity, declared
from ozonewright.uncertain import Estimate

SAME = 1e-9
"""Relative difference up to which a recomputed figure is the same."""


TABLES = (".csv", ".tsv", ".txt")
"""Endings of files that hold a line for each run."""


def read_file(path: Path) -> dict[str, Any]:
    """Return the documents of a file: TOML, or a table with a line for each run."""
    return as_one(read_csv(file_text(path))) if path.suffix.lower() in TABLES else read_table(path)


def file_text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except (OSError, ValueError) as error:
        raise InputError(
            "the table can't be read",
            where=str(path),
            got=getattr(error, "strerror", None) or "not UTF-8",
            fix="Check its name, and save it as text in UTF-8.",
        ) from error


def add_file(notebook: Notebook, path: Path) -> list[Entry]:
    """Add every document of a file, all or none, and keep what the runs answer."""
    return add_table(notebook, read_file(path), source=f"file {path.name}")


def add_table(notebook: Notebook, table: Mapping[str, Any], source: str = "typed") -> list[Entry]:
    """Add every document of a table, all or none, and keep what the runs answer."""
    documents = documents_in(table)
    _refuse_future([data["entry"] for kind, data in documents if kind == "entry"])
    with notebook.atomic():
        entries = [notebook.add(kind, data, source=source) for kind, data in documents]
        for entry in entries:
            keep_answer(notebook, entry)
    return entries


def _refuse_future(tables: Sequence[Mapping[str, Any]]) -> None:
    """Refuse tests and quenches that are still to come: a plan is no reading."""
    present = now().wall
    faults = []
    for number, table in enumerate(tables, start=1):
        when = table.get("when")
        if table["what"] not in (PEROXIDE_TEST, QUENCH) or when is None:
            continue
        moment = datetime.fromisoformat(when) if isinstance(when, str) else when
        if moment.astimezone() > present:
            place = "entry.when" if len(tables) == 1 else f"entry[{number}].when"
            fix = "Write the time at which it was done; what is planned is not logged."
            got = moment.isoformat()
            faults.append(OutOfBounds("this is dated in the future", where=place, got=got, fix=fix))
    if faults:
        raise Faults(faults)


def keep_answer(notebook: Notebook, entry: Entry) -> None:
    """Store what a run answers by itself, so that a later version can be held against it."""
    if entry.kind == "run":
        values = figures(outputs([entry.data])[0])
        notebook.store_result(entry.id, entry.revision, "output", __version__, values)


def figures(found: Output) -> dict[str, float]:
    """Return the figures of an answer in SI by the names of its fields."""
    values: dict[str, float] = {}
    for name, declaration in declared(found):
        value = getattr(found, name)
        if isinstance(declaration, Quantity) and isinstance(value, Estimate):
            values[name], values[f"u_{name}"] = value.value, value.u
    return values


def outputs_of(notebook: Notebook, setting: str | None = None) -> tuple[Output, ...]:
    """Return the outputs of the runs that stand, with the field blanks of their settings."""
    entries = notebook.entries(kind="run", setting=setting)
    return outputs_of_runs(runs_of(entries))


def entry_of(notebook: Notebook, kind: str, label: str) -> Entry:
    """Return the entry of this kind and label that stands.

    Raises
    ------
    NotFound
        None does; the nearest labels are told.
    """
    known = {entry.label: entry for entry in notebook.entries(kind=kind)}
    if label not in known:
        raise NotFound(
            f"the notebook keeps no {kind} of this label",
            where=kind,
            got=label,
            fix=nearest(label, known) if known else f"Add the {kind} first.",
        )
    return known[label]


def document_of(entry: Entry) -> dict[str, Any]:
    """Return the document of an entry under the label that the notebook gave it."""
    return entry.data | {entry.kind: {"label": entry.label} | dict(entry.data[entry.kind])}


def runs_of(entries: Sequence[Entry]) -> tuple[Run, ...]:
    """Return the runs of these entries; each is read once and kept while the program runs."""
    faults: list[AppError] = []
    found: list[Run] = []
    for entry in entries:
        try:
            found.append(_read(_Standing(entry.digest, entry.label, entry)))
        except Faults as several:
            faults += several.faults
        except AppError as error:
            faults.append(error)
    if faults:
        raise Faults(faults)
    return tuple(found)


@dataclass(frozen=True)
class _Standing:
    """A run as it stands; alike when its fingerprint and the label it was given are."""

    digest: str
    label: str
    entry: Entry = field(compare=False)


@lru_cache(maxsize=KEPT)
def _read(standing: _Standing) -> Run:
    return load_runs([labelled(standing.entry)])[0]


def labelled(entry: Entry) -> dict[str, Any]:
    """Return the document of an entry under the label that the notebook gave it."""
    return entry.data | {"run": {"label": entry.label} | dict(entry.data["run"])}


@dataclass(frozen=True, slots=True)
class Difference:
    """A stored figure that today's program works out otherwise."""

    label: str
    revision: int
    version: str
    """Of the program that stored it."""
    figure: str
    stored: float | None
    found: float | None


@dataclass(frozen=True, slots=True)
class Verified:
    """What verification found."""

    faults: tuple[str, ...]
    """In the file itself."""
    differences: tuple[Difference, ...]
    results: int
    entries: int

    @property
    def sound(self) -> bool:
        """Whether nothing is wrong."""
        return not self.faults and not self.differences


def verify(notebook: Notebook) -> Verified:
    """Check the file, and work out every stored result anew; a broken file ends it there."""
    faults = tuple(notebook.integrity())
    if faults:
        return Verified(faults=faults, differences=(), results=0, entries=0)
    stored = notebook.stored_results()
    differences = [one for result in stored for one in _differences(notebook, result)]
    return Verified(
        faults=(),
        differences=tuple(differences),
        results=len(stored),
        entries=notebook.counts()[0],
    )


def _differences(notebook: Notebook, result: StoredResult) -> list[Difference]:
    entry = notebook.at(result.entry_id, result.revision)
    try:
        found = figures(outputs([entry.data])[0])
    except AppError:
        found = {}
    names = sorted(result.values.keys() | found.keys())
    return [
        Difference(
            label=entry.label,
            revision=entry.revision,
            version=result.version,
            figure=name,
            stored=result.values.get(name),
            found=found.get(name),
        )
        for name in names
        if not _same(result.values.get(name), found.get(name))
    ]


def _same(stored: float | None, found: float | None) -> bool:
    if stored is None or found is None:
        return stored is found
    return isclose(stored, found, rel_tol=SAME, abs_tol=1e-300)


def listed(entries: Sequence[Entry]) -> list[dict[str, Any]]:
    """Return entries as rows of plain values."""
    return [
        {
            "id": entry.id,
            "kind": entry.kind,
            "label": entry.label,
            "revision": entry.revision,
            "when": entry.when.isoformat(),
            "withdrawn": entry.withdrawn,
        }
        for entry in entries
    ]
