"""How much ozone came out of each run."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.bench.load import Source, load_runs
from ozonewright.questions.output import Output, output
from ozonewright.records import run as records


def outputs(sources: Sequence[Source]) -> tuple[Output, ...]:
    """Return the output of every run; field blanks serve the runs of their own setting."""
    runs = load_runs(sources)
    return tuple(output(run, [other for other in runs if _is_blank_of(other, run)]) for run in runs)


def _is_blank_of(other: records.Run, run: records.Run) -> bool:
    return not other.discharge_on and run.discharge_on and other.setting == run.setting
