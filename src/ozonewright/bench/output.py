"""How much ozone came out of each run."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.bench.load import Source, load_runs
from ozonewright.questions.output import Output, output
from ozonewright.records import run as records


def outputs(sources: Sequence[Source]) -> tuple[Output, ...]:
    """Return the output of every run; field blanks serve the runs of their own setting."""
    return outputs_of_runs(load_runs(sources))


def outputs_of_runs(runs: Sequence[records.Run]) -> tuple[Output, ...]:
    """Return the same of runs that are read already."""
    blanks: dict[str | None, list[records.Run]] = {}
    for run in runs:
        if not run.discharge_on:
            blanks.setdefault(run.setting, []).append(run)
    return tuple(
        output(run, blanks.get(run.setting, ()) if run.discharge_on else ()) for run in runs
    )
