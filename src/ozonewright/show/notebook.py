"""The notebook in a terminal: lists, entries, revisions, verification."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from datetime import date, datetime, time
from typing import Any

import tomlkit

from ozonewright.bench.notebook import Verified
from ozonewright.documents.table import write_csv
from ozonewright.notebook import Entry, Imported
from ozonewright.questions.output import Output
from ozonewright.results import Quantity, declared
from ozonewright.show.harmless import harmless
from ozonewright.show.numbers import unit_text
from ozonewright.uncertain import Estimate

WHEN = "%Y-%m-%d %H:%M"


def _line(text: str, longest: int = 60) -> str:
    """Return a typed text as part of a line."""
    plain = harmless(" ".join(text.split()))
    return plain if len(plain) <= longest else plain[: longest - 1] + "…"


def made(label: str, path: str) -> str:
    """Say that a notebook was made, and what comes next."""
    command = f"ozonewright notebook add --notebook {path} RUN.toml"
    return f"{path}: new notebook “{_line(label)}”. Next: {command}"


def stored(entry: Entry) -> str:
    """Say what was stored, so that one sees nothing is lost."""
    acts = {"add": "stored", "revise": "corrected", "withdraw": "withdrawn", "undo": "undone"}
    return (
        f"{acts[entry.deed]}: {entry.kind} {_line(entry.label)}, revision {entry.revision}, "
        f"{entry.when:{WHEN}}"
    )


def rows_text(entries: Sequence[Entry]) -> str:
    """Return the entries as a table."""
    if not entries:
        return "No entries.\n"
    lines = [f"{'label':<20} {'kind':<9} {'rev':>3}  {'id':<12}  {'when':<16}  setting"]
    for entry in entries:
        main = entry.data.get(entry.kind) or {}
        setting = _line(str(main.get("setting") or main.get("what") or ""))
        struck = "withdrawn" if entry.withdrawn else setting
        lines.append(
            f"{_line(entry.label, 20):<20} {entry.kind:<9} {entry.revision:>3}  "
            f"{entry.id}  {entry.when:{WHEN}}  {struck}".rstrip()
        )
    return "\n".join(lines) + "\n"


def as_toml(data: Mapping[str, Any]) -> str:
    """Return a table as TOML."""
    # The escapes of `harmless` are TOML's own, so what is printed reads as what was typed.
    return harmless(tomlkit.dumps(data).replace("\r\n", "\n"))


def entry_text(entry: Entry) -> str:
    """Return an entry as it was typed, under a line that says which revision it is."""
    head = f"# {entry.kind} {_line(entry.label)}, revision {entry.revision}, {entry.when:{WHEN}}"
    if entry.withdrawn:
        head += f"\n# withdrawn: {_line(entry.reason or '')}"
    return f"{head}\n{as_toml(entry.data)}"


def history_text(revisions: Sequence[Entry]) -> str:
    """Return each revision with its reason and what it changed."""
    lines: list[str] = []
    before: Entry | None = None
    for entry in revisions:
        reason = f" ({_line(entry.reason)})" if entry.reason else ""
        aside = ", kept aside" if entry.aside else ""
        lines.append(f"{entry.revision}  {entry.when:{WHEN}}  {entry.deed}{reason}{aside}")
        if before is not None:
            lines += [f"     {line}" for line in changes(before.data, entry.data)]
        before = entry
    return "\n".join(lines) + "\n"


def changes(before: Mapping[str, Any], after: Mapping[str, Any], place: str = "") -> Iterator[str]:
    """Yield a line for each field that changed: what was typed, and what stands now."""
    for name in dict.fromkeys([*before, *after]):
        old, new = before.get(name), after.get(name)
        where = f"{place}.{name}" if place else str(name)
        if isinstance(old, Mapping) and isinstance(new, Mapping):
            yield from changes(old, new, where)
        elif old != new:
            yield f"{where}: {_written(old)} → {_written(new)}"


def _written(value: Any) -> str:
    return (
        "nothing" if value is None else harmless(json.dumps(value, ensure_ascii=False, default=str))
    )


def _plain(value: object) -> str:
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    raise TypeError(type(value).__name__)


def _dumped(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, indent=2, default=_plain) + "\n"


def rows_json(rows: Sequence[Mapping[str, Any]]) -> str:
    """Return the rows of a list as JSON."""
    return _dumped(list(rows))


def _entry_plain(entry: Entry) -> dict[str, Any]:
    return {
        "id": entry.id,
        "kind": entry.kind,
        "label": entry.label,
        "revision": entry.revision,
        "when": entry.when,
        "by": entry.by,
        "reason": entry.reason,
        "withdrawn": entry.withdrawn,
        "data": entry.data,
    }


def entry_json(entry: Entry) -> str:
    """Return an entry as JSON."""
    return _dumped(_entry_plain(entry))


def history_json(revisions: Sequence[Entry]) -> str:
    """Return every revision as JSON."""
    return _dumped([_entry_plain(entry) for entry in revisions])


def imported(found: Imported) -> str:
    """Say what an import brought."""
    text = (
        f"{found.entries} entries are new ({found.revisions} revisions); "
        f"{found.known} revisions were here already."
    )
    if found.conflicts:
        text += (
            " Two revisions contradict each other, both are kept, ours stays current: "
            + ", ".join(_line(label) for label in found.conflicts)
            + "."
        )
    return text


def verified_text(found: Verified) -> str:
    """Return what verification found, answer first."""
    if found.sound:
        return (
            f"Sound: {found.entries} entries, {found.results} stored answers worked out anew, "
            "none differs.\n"
        )
    lines = [f"{len(found.faults)} faults in the file, {len(found.differences)} figures differ."]
    lines += [f"  {_line(fault, 200)}" for fault in found.faults]
    if found.faults:
        lines.append(
            "  Keep the file as it is; go back to the latest backup, or import the latest export "
            "into a new notebook."
        )
    lines += [
        f"  {_line(one.label)}, revision {one.revision}, {one.figure}: "
        f"stored {_figure(one.stored)} by version {one.version}, now {_figure(one.found)}"
        for one in found.differences
    ]
    return "\n".join(lines) + "\n"


def _figure(value: float | None) -> str:
    return "nothing" if value is None else f"{value:.10g}"


def verified_json(found: Verified) -> str:
    """Return what verification found as JSON."""
    return _dumped(asdict(found) | {"sound": found.sound})


CSV_COLUMNS = {
    "on_time": "on time",
    "ozone": "collected",
    "rate": "rate",
    "concentration": "concentration",
    "energy_yield": "yield",
    "guard_share": "guard share",
}
"""Fields of an output, and the heads of their columns; the first three are read in again."""


def outputs_csv(results: Sequence[Output]) -> str:
    """Return outputs as CSV, each number with its standard uncertainty, units in the header."""
    declarations = dict(declared(Output))
    head = ["label", "setting", "started", "discharge"]
    for name, title in CSV_COLUMNS.items():
        declaration = declarations[name]
        assert isinstance(declaration, Quantity)
        unit = unit_text(declaration.unit)
        head += [f"{title} / {unit}", f"u {title} / {unit}"]
    return write_csv(head, [_csv_row(found) for found in results])


def _csv_row(found: Output) -> list[str]:
    cells = [" ".join((text or "").split()) for text in (found.label, found.setting)]
    cells += [found.started.isoformat() if found.started else "", found.discharge]
    for name in CSV_COLUMNS:
        declaration, value = dict(declared(found))[name], getattr(found, name)
        assert isinstance(declaration, Quantity)
        known = isinstance(value, Estimate)
        cells.append(f"{declaration.plain(value.value):.10g}" if known else "")
        cells.append(f"{declaration.plain_spread(value.u):.6g}" if known else "")
    return cells
