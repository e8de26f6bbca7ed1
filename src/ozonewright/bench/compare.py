"""Two settings beside each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from ozonewright.bench.load import Source, load_runs
from ozonewright.bench.notebook import runs_of
from ozonewright.bench.output import outputs_of_runs
from ozonewright.bench.setting import mean_of_runs
from ozonewright.bench.settled import settled_runs, settled_setting
from ozonewright.documents.leaves import leaves
from ozonewright.documents.typed import typed
from ozonewright.errors import (
    AppError,
    Faults,
    Inconsistent,
    InputError,
    MissingValue,
    NotFound,
    nearest,
)
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.comparison import Arm, Comparison, Made, comparison
from ozonewright.questions.output import Output
from ozonewright.questions.setting import Settled
from ozonewright.records.run import Run
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


def compare_settings(
    notebook: Notebook, first: str, second: str, difference: str | None = None
) -> Comparison:
    """Return the comparison of two settings of a notebook; `difference` is one to tell."""
    if first == second:
        raise Inconsistent(
            "a setting is not compared with itself", got=first, fix="Name two settings."
        )
    wanted = _wanted(difference)
    known = notebook.settings()
    for name in (first, second):
        if name not in known:
            raise NotFound(
                "no run of this setting stands in the notebook",
                got=name,
                fix=nearest(name, known) if known else "Give runs their setting first.",
            )
    return comparison(_arm(notebook, first), _arm(notebook, second), wanted)


def compare_files(sources: Sequence[Source], difference: str | None = None) -> Comparison:
    """Return the comparison of the two settings that the runs of these documents are of."""
    wanted = _wanted(difference)
    return _of_groups(load_runs(sources), wanted)


def _of_groups(runs: Sequence[Run], wanted: float | None) -> Comparison:
    groups: dict[str, list[Run]] = {}
    for run in runs:
        groups.setdefault(run.setting or run.label or run.place, []).append(run)
    if len(groups) != 2:
        raise InputError(
            "a comparison needs runs of exactly two settings",
            got=", ".join(groups) or "no run",
            fix='Give the runs of two settings, and each run its `setting = "…"`.',
        )
    first, second = (_arm_of(name, runs, settled_runs(runs)) for name, runs in groups.items())
    return comparison(first, second, wanted)


RATES = ("first_rates", "second_rates")


def compare_typed(texts: Mapping[str, str]) -> Comparison:
    """Return the comparison of two lists of outputs, typed as text with ; between them."""
    wanted = _wanted(texts.get("difference"))
    names = [texts.get(place) or usual for place, usual in (("first", "A"), ("second", "B"))]
    faults: list[AppError] = []
    if names[0] == names[1]:
        faults.append(
            Inconsistent("both have one name", where="second", got=names[1], fix="Name it apart.")
        )
    documents = [
        document
        for place, name in zip(RATES, names, strict=True)
        for document in _typed_runs(place, name, texts.get(place) or "", faults)
    ]
    if faults:
        raise Faults(faults)
    return _of_groups(load_runs(documents), wanted)


def _typed_runs(
    place: str, name: str, text: str, faults: list[AppError]
) -> Iterator[dict[str, Any]]:
    """Yield a run for each output of a list; what can't be read is a fault of its field."""
    rates = [part.strip() for part in text.split(";") if part.strip()]
    if not rates:
        fix = 'Write the output of each run: "0.62 g/h; 0.61 g/h".'
        faults.append(MissingValue("this is needed", where=place, fix=fix))
    for number, rate in enumerate(rates, start=1):
        try:
            typed(rate, (Kind.MASS_RATE, Kind.AMOUNT_RATE), least=0.0)
        except AppError as error:
            faults.append(error.at(place))
        yield {"run": {"label": f"{name} {number}", "setting": name, "rate": rate}}


def _wanted(difference: str | None) -> float | None:
    if not difference:
        return None
    try:
        return typed(difference, (Kind.SHARE,), above=0.0).value
    except AppError as error:
        raise error.at("difference") from error


def _arm(notebook: Notebook, name: str) -> Arm:
    entries = notebook.entries(kind="run", setting=name)
    runs = runs_of(entries)
    arm = _arm_of(name, runs, settled_setting(notebook, name))
    return replace(arm, rig=_rigs(notebook, entries))


TOLD_OTHERWISE = ("rig, label", "rig, by", "rig, remark")
"""Of a rig; its label is compared as the run names it, the others change nothing."""
ANSWERED = "checklist, "
"""Of a rig, what was answered of the gate's questions: no part of what makes the ozone."""


def _rigs(notebook: Notebook, entries: Sequence[Entry]) -> dict[str, tuple[str, ...]]:
    """Return what the rigs of these runs say, as pinned when each run was kept."""
    found: dict[str, dict[str, None]] = {}
    for pin in dict.fromkeys(entry.pins["rig"] for entry in entries if "rig" in entry.pins):
        for place, text in leaves(notebook.at(*pin).data):
            if place not in TOLD_OTHERWISE and not place.startswith(ANSWERED):
                found.setdefault(place, {})[text] = None
    return {place: tuple(texts) for place, texts in found.items()}


def _arm_of(name: str, runs: Sequence[Run], settled: Settled | None) -> Arm:
    found = outputs_of_runs(runs)
    made = [
        _made(run, output)
        for run, output in zip(runs, found, strict=True)
        if run.discharge_on and isinstance(output.rate, Estimate)
    ]
    if not made:
        raise MissingValue(
            "no run of this setting has an output",
            got=name,
            fix="Add a run with its on-time and titres.",
        )
    mean = mean_of_runs(name, found, settled)
    assert mean.rate is not None
    return Arm(
        name=name,
        made=made,
        level=mean.rate,
        slope=mean.slope,
        by_slope=settled.slope if settled is not None and mean.by == "slope" else None,
        surplus_ruled_out=mean.surplus_ruled_out,
    )


def _made(run: Run, output: Output) -> Made:
    assert isinstance(output.rate, Estimate)
    flow = output.feed_flow if isinstance(output.feed_flow, Estimate) else None
    return Made(run, output.rate, flow)
