"""What a report tells, part by part: asked when the part is reached, so that none is held."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from ozonewright.bench.beside import (
    Beside,
    Known,
    of_reaction,
    of_setting,
)
from ozonewright.bench.clearance import clearance_of
from ozonewright.bench.clock import now
from ozonewright.bench.gas_line import answer
from ozonewright.bench.gate import gate_of
from ozonewright.bench.gate_kept import standing
from ozonewright.bench.notebook import runs_of
from ozonewright.bench.output import output_of, outputs_of_runs
from ozonewright.bench.reaction import plan_of_entry
from ozonewright.bench.rig import rig_of
from ozonewright.bench.setting import mean_of_runs
from ozonewright.bench.settled import drift_unbidden, settled_of
from ozonewright.bench.subject import MOST_RUNS, Subject, wanted_of
from ozonewright.errors import AppError
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.clearance import Clearance
from ozonewright.questions.drift import Drift
from ozonewright.questions.gas_line import GasLine
from ozonewright.questions.gate import Gate
from ozonewright.questions.output import Output
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.setting import SettingOutput
from ozonewright.records.rig import Rig
from ozonewright.records.run import Run


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
    left_out: int = 0
    """Of its runs, the first, that the report does not hold in full."""
    beside: tuple[Beside, ...] = ()


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
    beside: tuple[Beside, ...] = ()


@dataclass(frozen=True, slots=True)
class LogPart:
    """What was logged at the bench, and what was struck out."""

    entries: tuple[Entry, ...]
    withdrawn: tuple[Entry, ...]


Part = RunPart | SettingPart | RigPart | ReactionPart | LogPart


def parts(
    notebook: Notebook,
    subject: Subject,
    most_runs: int | None = None,
    wanted: frozenset[str] | None = None,
) -> Iterator[Part]:
    """Yield the parts of a report; of more than `most_runs` runs only the last in full."""
    wanted = wanted_of(subject) if wanted is None else wanted
    if subject.kind == "setting":
        others = [one for one in notebook.settings() if one != subject.label]
        yield from _setting_and_runs(notebook, subject.label, most_runs, others, wanted)
    elif subject.entry is not None:
        yield _of_entry(notebook, subject.entry, wanted)
    else:
        yield from _whole(notebook, most_runs, wanted)


def _of_entry(notebook: Notebook, entry: Entry, wanted: frozenset[str]) -> Part:
    if entry.kind == "rig":
        return rig_part(notebook, entry, wanted)
    if entry.kind == "reaction":
        return reaction_part(notebook, entry, now().wall, wanted)
    return next(run_parts(notebook, [entry]))


def _whole(notebook: Notebook, most_runs: int | None, wanted: frozenset[str]) -> Iterator[Part]:
    for entry in notebook.entries(kind="rig"):
        yield rig_part(notebook, entry, wanted)
    lone = [entry for entry in notebook.entries(kind="run") if not entry.data["run"].get("setting")]
    left = most_runs
    settings = notebook.settings()
    for number, name in enumerate(settings):
        # each beside the one used last, so that no pair comes twice
        others = settings[:1] if number else [] if len(settings) == 1 else None
        for part in _setting_and_runs(notebook, name, left, others, wanted):
            left = left - 1 if left is not None and isinstance(part, RunPart) else left
            yield part
    yield from run_parts(notebook, _last(lone, left))
    for entry in notebook.entries(kind="reaction"):
        yield reaction_part(notebook, entry, now().wall, wanted)
    logged = notebook.entries(kind="entry")
    struck = [one for one in notebook.entries(withdrawn=True) if one.withdrawn]
    if logged or struck:
        yield LogPart(tuple(logged), tuple(struck))


def _setting_and_runs(
    notebook: Notebook,
    name: str,
    most: int | None,
    others: Sequence[str] | None,
    wanted: frozenset[str],
) -> Iterator[Part]:
    """Yield a setting, then its runs, of which the last were worked out for it."""
    entries = notebook.entries(kind="run", setting=name)
    part = setting_part(notebook, name, wanted)
    left_out = 0 if most is None else max(len(entries) - max(most, 0), 0)
    made = [one for one in entries if one.data["run"].get("discharge") != "off"]
    beside = _beside(notebook, part, (made or entries)[-1], others, wanted)
    yield replace(part, left_out=left_out, beside=beside)
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
            (run,) = runs_of([entry])
            found = output_of(run, _blanks(notebook, run, blanks))
        yield RunPart(tuple(notebook.history(entry.id)), found)


def _blanks(notebook: Notebook, run: Run, known: dict[str, list[Run]]) -> list[Run]:
    if run.setting is None or not run.discharge_on:
        return []
    if run.setting not in known:
        entries = notebook.entries(kind="run", setting=run.setting)
        off = [one for one in entries if one.data["run"].get("discharge") == "off"]
        known[run.setting] = list(runs_of(off))
    return known[run.setting]


def _beside(
    notebook: Notebook,
    part: SettingPart,
    last: Entry,
    others: Sequence[str] | None,
    wanted: frozenset[str],
) -> tuple[Beside, ...]:
    pin = last.pins.get("rig")
    known = Known(part.name, part.runs, part.mean, last, notebook.at(*pin) if pin else None)
    return of_setting(notebook, known, others, wanted)


def setting_part(
    notebook: Notebook, name: str, wanted: frozenset[str] = frozenset({"drift"})
) -> SettingPart:
    """Return a setting with the mean of its last runs and what drift says of them."""
    entries = notebook.entries(kind="run", setting=name)
    runs = runs_of(entries[-MOST_RUNS:])
    found = outputs_of_runs(runs)
    drift, mean, trouble = None, None, []
    try:
        drift = drift_unbidden(notebook, name) if "drift" in wanted else None
    except AppError as error:
        trouble.append(error.at("drift"))
    try:
        mean = mean_of_runs(name, found, settled_of(drift))
    except AppError as error:
        trouble.append(error)
    return SettingPart(name, found, len(entries), mean, drift, tuple(trouble))


def rig_part(
    notebook: Notebook, entry: Entry, wanted: frozenset[str] = frozenset({"gas-line"})
) -> RigPart:
    """Return a rig with its flow, or why none can be worked out."""
    history, rig = tuple(notebook.history(entry.id)), rig_of(entry.data)
    if "gas-line" not in wanted:
        return RigPart(history, rig)
    try:
        return RigPart(history, rig, answer(entry.data))
    except AppError as error:
        return RigPart(history, rig, trouble=(error,))


def reaction_part(
    notebook: Notebook, entry: Entry, moment: datetime, wanted: frozenset[str]
) -> ReactionPart:
    """Return a reaction with what can be said of it; what can't be is told."""
    trouble: list[AppError] = []
    plan = gate = clearance = None
    try:
        plan = plan_of_entry(notebook, entry)
    except AppError as error:
        trouble.append(error.at("plan"))
    try:
        gate = gate_of(notebook, reaction=entry.label) if "gate" in wanted else None
    except AppError as error:
        trouble.append(error.at("gate"))
    try:
        if "clearance" in wanted:
            clearance = clearance_of(notebook, entry.label, moment)
    except AppError as error:
        trouble.append(error.at("clearance"))
    kept = standing(notebook, entry.label)
    history = tuple(notebook.history(entry.id))
    beside = of_reaction(notebook, entry, plan, wanted)
    return ReactionPart(history, plan, gate, kept, clearance, tuple(trouble), beside)
