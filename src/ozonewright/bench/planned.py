"""What a plan says of a reaction that is counted, and drift of the setting behind a run.

Apart from `bench.count`, because structures and fits load much: fetched when such a thing is asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from ozonewright.bench.reaction import plan_of_entry
from ozonewright.bench.settled import settled_setting
from ozonewright.errors import AppError
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.count import Mark, Subject
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind

KNOWN = 32
"""Plans kept while all they rest on stands as it is."""
INSTEAD = {"output": ("setting", "run"), "uptake": ("slip",)}
"""What a value logged at the bench takes the place of in the document."""

__all__ = ["planned_reaction", "settled_setting"]


def planned_reaction(notebook: Notebook, entry: Entry, logged: Mapping[str, str]) -> Subject:
    """Return output, uptake, ozone wanted and marks of a reaction as planned.

    `logged` holds output and uptake as typed at the bench; they go before those of the document.
    """
    key = (entry.digest, *sorted(logged.items()), *_rests_on(notebook, entry))
    return _planned(_Asked(key, notebook, entry, logged))


@dataclass(frozen=True)
class _Asked:
    """A reaction with all that its plan rests on; alike when the fingerprints are."""

    key: tuple[Any, ...]
    notebook: Notebook = field(compare=False)
    entry: Entry = field(compare=False)
    logged: Mapping[str, str] = field(compare=False)


def _rests_on(notebook: Notebook, entry: Entry) -> Iterator[str]:
    """Yield the fingerprints of rig and runs that a reaction names, and of their settings' runs."""
    table = entry.data["reaction"]
    slip = table.get("slip")
    named = [table.get("run"), slip.get("run") if isinstance(slip, Mapping) else None]
    runs = [run for name in named if name for run in notebook.labelled(str(name))]
    settings = {table.get("setting"), *(run.data.get("run", {}).get("setting") for run in runs)}
    for name in sorted(str(one) for one in settings if one):
        runs += notebook.entries(kind="run", setting=name)
    rig = [one for one in notebook.labelled(str(table.get("rig") or "")) if one.kind == "rig"]
    yield from (one.digest for one in (*runs, *rig))


@lru_cache(maxsize=KNOWN)
def _planned(asked: _Asked) -> Subject:
    entry = asked.entry
    try:
        return _subject(entry.label, plan_of_entry(asked.notebook, _changed(entry, asked.logged)))
    except AppError as error:
        # What was pressed counts all the same; the reason stands beside the count.
        fault = getattr(error, "faults", (error,))[0]
        values = {"what": fault.what, "where": fault.where, "fix": fault.fix}
        note = Note("count-no-plan", "wrong", values)
        return Subject(entry.label, "reaction", notes=(note,))


def _changed(entry: Entry, logged: Mapping[str, str]) -> Entry:
    table = dict(entry.data["reaction"])
    for name, text in logged.items():
        table[name] = text
        for other in INSTEAD[name]:
            table.pop(other, None)
    return replace(entry, data=entry.data | {"reaction": table})


def _subject(label: str, plan: ReactionPlan) -> Subject:
    marks = (("look", plan.look_from), ("stop by", plan.stop_by))
    return Subject(
        of=label,
        kind="reaction",
        output=_input(plan.output_amount, "output", Kind.AMOUNT_RATE),
        uptake=_input(plan.uptake, "uptake", Kind.SHARE),
        wanted=_input(plan.demand, "ozone demand", Kind.AMOUNT),
        planned=_value(plan.on_time),
        marks=tuple(Mark(name, at) for name, at in marks if at is not None),
        signs=plan.signs,
        sources=plan.sources,
    )


def _value(found: Estimate | float | None) -> float | None:
    return found.value if isinstance(found, Estimate) else found


def _input(found: Estimate | float | None, name: str, kind: Kind) -> Measured | None:
    value = _value(found)
    if value is None:
        return None
    if not isinstance(found, Estimate):
        return Measured(value, 0.0, name, kind, basis="exact")
    return Measured(value, found.u, name, kind, dof=found.dof, basis="answer")
