"""What a report is of, part by part: asked when the part is reached, so that none is held."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from ozonewright.bench.clearance import clearance_of
from ozonewright.bench.clock import now
from ozonewright.bench.gas_line import answer
from ozonewright.bench.gate import gate_of
from ozonewright.bench.gate_kept import standing
from ozonewright.bench.load import load_runs
from ozonewright.bench.notebook import labelled
from ozonewright.bench.output import outputs_of_runs
from ozonewright.bench.reaction import plan_of_entry
from ozonewright.bench.rig import rig_of
from ozonewright.bench.setting import mean_of_runs
from ozonewright.bench.settled import drift_unbidden, settled_of
from ozonewright.errors import AppError, Inconsistent, NotFound, nearest
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.clearance import Clearance
from ozonewright.questions.drift import Drift
from ozonewright.questions.gas_line import GasLine
from ozonewright.questions.gate import Gate
from ozonewright.questions.output import Output, output
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.setting import SettingOutput
from ozonewright.records.rig import Rig
from ozonewright.records.run import Run

MOST_RUNS = 100
"""Runs of which a setting is worked out, as on its page; the last ones count."""
REPORTED = ("run", "reaction", "rig")
"""Kinds of entry that a report can be of."""
SETTING = "setting:"
"""Written before a name, it says that the setting is meant."""


@dataclass(frozen=True, slots=True)
class Subject:
    """What a report is of: an entry, a setting, or the whole notebook."""

    kind: str
    label: str
    entry: Entry | None = None


@dataclass(frozen=True, slots=True)
class RunPart:
    """One run with all that was ever typed of it."""

    history: tuple[Entry, ...]
    found: Output

    @property
    def entry(self) -> Entry:
        """The run as it stands."""
        return self.history[-1]


@dataclass(frozen=True, slots=True)
class SettingPart:
    """One setting: its runs, their mean, why they disagree."""

    name: str
    runs: tuple[Output, ...]
    count: int
    """Runs that stand, of which the last were worked out."""
    mean: SettingOutput | None = None
    drift: Drift | None = None
    trouble: tuple[AppError, ...] = ()


@dataclass(frozen=True, slots=True)
class RigPart:
    """One rig with what flows through it."""

    history: tuple[Entry, ...]
    rig: Rig
    line: GasLine | None = None
    trouble: tuple[AppError, ...] = ()


@dataclass(frozen=True, slots=True)
class ReactionPart:
    """One reaction: its plan, its gate and its clearance as they stand."""

    history: tuple[Entry, ...]
    plan: ReactionPlan | None = None
    gate: Gate | None = None
    gate_kept: Entry | None = None
    clearance: Clearance | None = None
    trouble: tuple[AppError, ...] = ()


@dataclass(frozen=True, slots=True)
class LogPart:
    """What was logged at the bench, and what was struck out."""

    entries: tuple[Entry, ...]
    withdrawn: tuple[Entry, ...]


Part = RunPart | SettingPart | RigPart | ReactionPart | LogPart


def subject_of(notebook: Notebook, of: str | None) -> Subject:
    """Return what is meant by a label, the name of a setting, or an id.

    Raises
    ------
    NotFound
        Nothing answers to it; the nearest are told.
    Inconsistent
        A setting and an entry do, or more than one entry.
    """
    if of is None:
        return Subject("notebook", notebook.label)
    settings = notebook.settings()
    if of.startswith(SETTING) and (name := of.removeprefix(SETTING).strip()) in settings:
        return Subject("setting", name)
    entries = [one for one in notebook.labelled(of) if one.kind in REPORTED and not one.withdrawn]
    if of in settings and entries:
        raise Inconsistent(
            "a setting and an entry have this name",
            where="of",
            got=of,
            fix=f'Write "{SETTING} {of}" for the setting, or the id {entries[0].id} for the '
            f"{entries[0].kind}.",
        )
    if of in settings:
        return Subject("setting", of)
    if len(entries) > 1:
        ids = ", ".join(f"{one.id} ({one.kind})" for one in entries[:6])
        raise Inconsistent(
            "more than one entry has this label", where="of", got=of, fix=f"Use an id: {ids}."
        )
    entry = entries[0] if entries else _by_id(notebook, of)
    return Subject(entry.kind, entry.label, entry)


def _by_id(notebook: Notebook, of: str) -> Entry:
    known = {one.label for kind in REPORTED for one in notebook.entries(kind=kind, last=MOST_RUNS)}
    known |= set(notebook.settings())
    nothing = NotFound(
        "no run, setting, reaction or rig of the notebook answers to this",
        where="of",
        got=of,
        fix=nearest(of, known) if known else "The notebook is empty: ozonewright add FILE.toml.",
    )
    try:
        entry = notebook.get(of)
    except NotFound as error:
        raise nothing from error
    if entry.kind not in REPORTED:
        raise nothing
    return entry


def parts(notebook: Notebook, subject: Subject, most_runs: int | None = None) -> Iterator[Part]:
    """Yield the parts of a report; of more than `most_runs` runs only the last in full."""
    if subject.kind == "setting":
        yield from _setting_and_runs(notebook, subject.label, most_runs)
    elif subject.entry is not None:
        yield _of_entry(notebook, subject.entry)
    else:
        yield from _whole(notebook, most_runs)


def _of_entry(notebook: Notebook, entry: Entry) -> Part:
    if entry.kind == "rig":
        return rig_part(notebook, entry)
    if entry.kind == "reaction":
        return reaction_part(notebook, entry, now().wall)
    return next(run_parts(notebook, [entry]))


def _whole(notebook: Notebook, most_runs: int | None) -> Iterator[Part]:
    for entry in notebook.entries(kind="rig"):
        yield rig_part(notebook, entry)
    lone = [entry for entry in notebook.entries(kind="run") if not entry.data["run"].get("setting")]
    left = most_runs
    for name in notebook.settings():
        for part in _setting_and_runs(notebook, name, left):
            left = left - 1 if left is not None and isinstance(part, RunPart) else left
            yield part
    yield from run_parts(notebook, _last(lone, left))
    for entry in notebook.entries(kind="reaction"):
        yield reaction_part(notebook, entry, now().wall)
    logged = notebook.entries(kind="entry")
    struck = [one for one in notebook.entries(withdrawn=True) if one.withdrawn]
    if logged or struck:
        yield LogPart(tuple(logged), tuple(struck))


def _setting_and_runs(notebook: Notebook, name: str, most: int | None) -> Iterator[Part]:
    """Yield a setting, then its runs, of which the last were worked out for it."""
    entries = notebook.entries(kind="run", setting=name)
    part = setting_part(notebook, name)
    yield part
    tail = entries[len(entries) - len(part.runs) :]
    known = {entry.digest: found for entry, found in zip(tail, part.runs, strict=True)}
    yield from run_parts(notebook, _last(entries, most), known)


def _last(entries: Sequence[Entry], most: int | None) -> Sequence[Entry]:
    return entries if most is None else entries[max(len(entries) - most, 0) :]


def run_parts(
    notebook: Notebook, entries: Sequence[Entry], known: Mapping[str, Output] | None = None
) -> Iterator[RunPart]:
    """Yield runs with the field blanks of their settings.

    `known` are answers that were worked out already, by the fingerprint of the entry.
    """
    blanks: dict[str, list[Run]] = {}
    for entry in entries:
        found = (known or {}).get(entry.digest)
        if found is None:
            run = load_runs([labelled(entry)])[0]
            found = output(run, _blanks(notebook, run, blanks))
        yield RunPart(tuple(notebook.history(entry.id)), found)


def _blanks(notebook: Notebook, run: Run, known: dict[str, list[Run]]) -> list[Run]:
    if run.setting is None or not run.discharge_on:
        return []
    if run.setting not in known:
        entries = notebook.entries(kind="run", setting=run.setting)
        off = [one for one in entries if one.data["run"].get("discharge") == "off"]
        known[run.setting] = list(load_runs([labelled(entry) for entry in off]))
    return known[run.setting]


def setting_part(notebook: Notebook, name: str) -> SettingPart:
    """Return a setting with the mean of its last runs and what drift says of them."""
    entries = notebook.entries(kind="run", setting=name)
    runs = load_runs([labelled(entry) for entry in entries[-MOST_RUNS:]])
    found = outputs_of_runs(runs)
    drift, mean, trouble = None, None, []
    try:
        drift = drift_unbidden(notebook, name)
    except AppError as error:
        trouble.append(error.at("drift"))
    try:
        mean = mean_of_runs(name, found, settled_of(drift))
    except AppError as error:
        trouble.append(error)
    return SettingPart(name, found, len(entries), mean, drift, tuple(trouble))


def rig_part(notebook: Notebook, entry: Entry) -> RigPart:
    """Return a rig with its flow, or why none can be worked out."""
    history, rig = tuple(notebook.history(entry.id)), rig_of(entry.data)
    try:
        return RigPart(history, rig, answer(entry.data))
    except AppError as error:
        return RigPart(history, rig, trouble=(error,))


def reaction_part(notebook: Notebook, entry: Entry, moment: datetime) -> ReactionPart:
    """Return a reaction with what can be said of it; what can't be is told."""
    trouble: list[AppError] = []
    plan = gate = clearance = None
    try:
        plan = plan_of_entry(notebook, entry)
    except AppError as error:
        trouble.append(error.at("plan"))
    try:
        gate = gate_of(notebook, reaction=entry.label)
    except AppError as error:
        trouble.append(error.at("gate"))
    try:
        clearance = clearance_of(notebook, entry.label, moment)
    except AppError as error:
        trouble.append(error.at("clearance"))
    kept = standing(notebook, entry.label)
    history = tuple(notebook.history(entry.id))
    return ReactionPart(history, plan, gate, kept, clearance, tuple(trouble))
