"""The count of a run or a reaction: events of the notebook, its output, its plan."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from ozonewright.bench.log import events_of, last_event, logged
from ozonewright.bench.notebook import labelled
from ozonewright.bench.output import outputs
from ozonewright.bench.ozone_rate import ozone_rate
from ozonewright.bench.setting import setting_output
from ozonewright.documents.convert_entry import logged_quantity
from ozonewright.documents.entry import EntryDocument, kinds_of
from ozonewright.documents.section import validated
from ozonewright.documents.typed import Typed
from ozonewright.errors import Inconsistent, MissingValue
from ozonewright.notebook import Entry, Notebook
from ozonewright.physics.assay.plan import amount_of_ozone
from ozonewright.questions.count import Count, Mark, Subject, count
from ozonewright.questions.output import Output
from ozonewright.questions.setting import Settled
from ozonewright.records.event import Moment
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind

Answered = Callable[[Notebook, Sequence[Entry]], Sequence[Output]]
"""From runs of the notebook to their outputs; pages keep what was worked out once."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Whom the count asks for what it does not work out itself."""

    answered: Answered
    planned: Callable[[Notebook, Entry, Mapping[str, str]], Subject]
    """From a reaction, with output and uptake as typed at the bench, to its plan."""
    settled: Callable[[Notebook, str], Settled | None]
    """What drift has determined of a setting."""


def answered_anew(notebook: Notebook, entries: Sequence[Entry]) -> Sequence[Output]:
    """Work the outputs out, each with the field blanks of its setting."""
    return [outputs([labelled(run), *_blanks(notebook, run)])[0] for run in entries]


def _blanks(notebook: Notebook, run: Entry) -> list[dict[str, object]]:
    setting = run.data["run"].get("setting")
    runs = notebook.entries(kind="run", setting=setting) if setting else []
    off = [one for one in runs if one.data["run"].get("discharge") == "off" and one.id != run.id]
    return [labelled(one) for one in off]


def count_so_far(notebook: Notebook, of: str, now: Moment, asked: Asked) -> Count:
    """Return the count of a run or reaction at the present."""
    return count_of(notebook, of, logged(notebook, of), now, asked)


def count_of(
    notebook: Notebook, of: str, entries: Sequence[Entry], now: Moment, asked: Asked
) -> Count:
    """Return the count from entries that were read already."""
    return count(events_of(entries), now, subject_of(notebook, of, entries, asked))


def current(notebook: Notebook) -> str | None:
    """Return the run or reaction of the last event, or None while there is none."""
    entry = last_event(notebook)
    return None if entry is None else str(entry.data["entry"].get("of") or "") or None


def subject_of(notebook: Notebook, of: str, entries: Sequence[Entry], asked: Asked) -> Subject:
    """Return what is known of a run or reaction: what was logged beside it, then its document."""
    document = _document(notebook, of)
    facts = _facts(entries)
    if document is not None and document.kind == "reaction":
        texts = {name: fact.text for name, fact in facts.items() if name in ("output", "uptake")}
        return _with_facts(asked.planned(notebook, document, texts), facts)
    kind = "reaction" if facts.keys() & {"uptake", "wanted"} else "run"
    subject = Subject(of=of, kind=kind)
    if document is not None:
        subject = _of_run(notebook, subject, document, asked)
    if subject.output is None and (name := _setting(entries)):
        subject = replace(subject, output=_of_setting(notebook, name, asked))
    return _with_facts(subject, facts)


def _document(notebook: Notebook, of: str) -> Entry | None:
    found = [one for one in notebook.labelled(of) if one.kind in ("run", "reaction")]
    if len(found) > 1:
        raise Inconsistent(
            "more than one run or reaction has this label",
            where="of",
            got=of,
            fix="Give one of them another label.",
        )
    return found[0] if found else None


def _facts(entries: Sequence[Entry]) -> dict[str, Typed]:
    """Return the quantities logged beside the events; of each the last counts."""
    found: dict[str, Typed] = {}
    for entry in entries:
        if not kinds_of(entry.data["entry"]["what"]):
            continue
        value = logged_quantity(validated(EntryDocument, entry.data))
        if value is not None:
            found[entry.data["entry"]["what"]] = value
    return found


def _setting(entries: Sequence[Entry]) -> str | None:
    tables = [entry.data["entry"] for entry in entries]
    return next((one.get("value") for one in reversed(tables) if one["what"] == "setting"), None)


def _of_run(notebook: Notebook, subject: Subject, run: Entry, asked: Asked) -> Subject:
    """Take output and minutes from the run's own document where it stands in the notebook."""
    (found,) = asked.answered(notebook, [run])
    output = None
    if found.discharge == "on" and isinstance(found.rate_amount, Estimate):
        output = _input(found.rate_amount, f"output of {subject.of}", 1.0)
    elif setting := run.data["run"].get("setting"):
        output = _of_setting(notebook, str(setting), asked)
    planned = found.on_time.value if isinstance(found.on_time, Estimate) else None
    return replace(_planned(subject, planned), output=output)


def _of_setting(notebook: Notebook, name: str, asked: Asked) -> Measured | None:
    """Return the output of a setting, or None while no run of it has one."""
    runs = notebook.entries(kind="run", setting=name)
    if not runs:
        return None
    settled = asked.settled(notebook, name)
    try:
        rate = setting_output(notebook, name, asked.answered(notebook, runs), settled).rate
    except MissingValue:
        return None
    per_mass = float(amount_of_ozone(mass=1.0))
    return None if rate is None else _input(rate, f"output of {name}", per_mass)


def _input(rate: Estimate, name: str, scale: float) -> Measured:
    """Return an answer as an input of the next question."""
    return Measured(
        scale * rate.value, scale * rate.u, name, Kind.AMOUNT_RATE, dof=rate.dof, basis="answer"
    )


def _with_facts(subject: Subject, facts: Mapping[str, Typed]) -> Subject:
    if "output" in facts:
        subject = replace(subject, output=ozone_rate(facts["output"]))
    if "uptake" in facts:
        subject = replace(subject, uptake=facts["uptake"].measured("uptake"))
    if "wanted" in facts:
        # The marks of a plan were set for what its document wants.
        wanted = facts["wanted"].measured("ozone wanted")
        subject = replace(subject, wanted=wanted, planned=None, marks=(), signs=())
    if "planned on-time" in facts:
        subject = _planned(subject, facts["planned on-time"].value)
    return subject


def _planned(subject: Subject, seconds: float | None) -> Subject:
    """Return the subject with its planned on-time; marks that a reaction's plan set stay."""
    if seconds is None:
        return subject
    return replace(subject, planned=seconds, marks=subject.marks or (Mark("stop", seconds),))
