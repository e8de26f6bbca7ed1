"""A label beside what was measured."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.bench.load import Source, load_runs
from ozonewright.bench.notebook import runs_of
from ozonewright.bench.output import outputs_of_runs
from ozonewright.bench.setting import mean_of_runs
from ozonewright.bench.settled import settled_runs, settled_setting
from ozonewright.documents.typed import typed
from ozonewright.errors import AppError, Inconsistent, MissingValue, NotFound, nearest
from ozonewright.notebook import Notebook
from ozonewright.questions.claim import Claim, Measurement, claim
from ozonewright.questions.output import Output
from ozonewright.questions.setting import Settled
from ozonewright.records.run import Run
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


def claim_of_files(sources: Sequence[Source], label: str | None) -> Claim:
    """Return a label beside the run, or the runs of one setting, of these documents."""
    stated = _label(label)
    runs = load_runs(sources)
    settings = {run.setting for run in runs}
    if len(settings) > 1:
        raise Inconsistent(
            "a label is held against one setting",
            got=", ".join(sorted(name or "no setting" for name in settings)),
            fix="Give the runs of one setting.",
        )
    settled = settled_runs(runs) if len(runs) > 1 else None
    return claim(_measured(runs, settled), stated)


def claim_of_setting(notebook: Notebook, setting: str, label: str | None) -> Claim:
    """Return a label beside a setting of a notebook."""
    stated = _label(label)
    entries = notebook.entries(kind="run", setting=setting)
    if not entries:
        known = notebook.settings()
        raise NotFound(
            "no run of this setting stands in the notebook",
            got=setting,
            fix=nearest(setting, known) if known else "Give runs their setting first.",
        )
    settled = settled_setting(notebook, setting)
    return claim(_measured(runs_of(entries), settled), stated)


def _label(text: str | None) -> float:
    if not text:
        raise MissingValue("what does the label say?", where="label", fix='Write it as "4 g/h".')
    try:
        return typed(text, (Kind.MASS_RATE,), above=0.0).value
    except AppError as error:
        raise error.at("label") from error


def _measured(runs: Sequence[Run], settled: Settled | None) -> Measurement:
    found = outputs_of_runs(runs)
    made = [
        (run, output)
        for run, output in zip(runs, found, strict=True)
        if run.discharge_on and isinstance(output.rate, Estimate)
    ]
    if not made:
        raise MissingValue(
            "no run here has an output to hold a label against",
            fix="Give a run with its on-time and titres.",
        )
    run, last = made[-1]
    rate = last.rate
    if len(made) > 1:
        rate = mean_of_runs(run.setting or "", found, settled).rate
    assert isinstance(rate, Estimate)
    return Measurement(
        run=run,
        rate=rate,
        runs=len(made),
        setting=run.setting,
        feed_flow=last.feed_flow if isinstance(last.feed_flow, Estimate) else None,
        wrong=_wrong([output for _, output in made]),
        slip_known=all(output.guard_share is not None for _, output in made),
    )


def _wrong(found: Sequence[Output]) -> tuple[str, ...]:
    codes = (note.code for output in found for note in output.notes if note.level == "wrong")
    return tuple(dict.fromkeys(codes))
