"""What drift has determined of a setting, for whoever asks for its output.

Apart from `bench.setting`, because drift loads much and takes a second.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from ozonewright.bench.drift import drift_of_runs
from ozonewright.bench.notebook import runs_of
from ozonewright.errors import AppError
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.drift import Drift
from ozonewright.questions.setting import STEADY, Settled
from ozonewright.records.run import Run

KNOWN = 64
"""Settings of which it is kept what drift has determined, by the runs that stand."""

MOST_WEIGHED = 30
"""Runs up to which drift is asked unbidden, which takes two seconds; of more, ask drift itself."""


def settled_setting(notebook: Notebook, name: str) -> Settled | None:
    """Return what drift has determined of a setting, or None while it has determined nothing."""
    try:
        return settled_of(drift_unbidden(notebook, name))
    except AppError:
        # A run without minutes or ozone: drift says so when it is asked, the mean stands.
        return None


def drift_unbidden(notebook: Notebook, name: str) -> Drift | None:
    """Return what drift says of a setting, or None where it has nothing or too much to go by.

    Raises
    ------
    AppError
        A run that drift can't be asked of.
    """
    entries = tuple(notebook.entries(kind="run", setting=name))
    return _drift(_Standing(tuple(entry.digest for entry in entries), entries))


def settled_runs(runs: Sequence[Run]) -> Settled | None:
    """Return the same of runs that are read already, all of one setting."""
    try:
        return settled_of(_drift_of(runs))
    except AppError:
        return None


def settled_of(found: Drift | None) -> Settled | None:
    """Return what an answer of drift has determined.

    What hides in all runs alike, ozone past the bottles, moves the mean and the slope alike.
    """
    if found is None:
        return None
    verdict = found.verdict or (STEADY if found.even else None)
    if verdict is None:
        return None
    fit = found.fit
    return Settled(verdict, fit.slope if fit else None, fit.intercept if fit else None)


@dataclass(frozen=True)
class _Standing:
    """The runs of a setting as they stand; alike when their digests are."""

    digests: tuple[str, ...]
    entries: tuple[Entry, ...] = field(compare=False)


@lru_cache(maxsize=KNOWN)
def _drift(standing: _Standing) -> Drift | None:
    if len(standing.entries) > MOST_WEIGHED:
        return None
    return _drift_of(runs_of(standing.entries))


def _drift_of(runs: Sequence[Run]) -> Drift | None:
    return drift_of_runs(runs) if _may_be_determined(runs) else None


def _may_be_determined(runs: Sequence[Run]) -> bool:
    """Whether drift has anything to go by: two runs, and other minutes or a field blank."""
    if len(runs) > MOST_WEIGHED:
        return False
    made = [run for run in runs if run.discharge_on]
    times = {run.on_time.value for run in made if run.on_time is not None}
    return len(made) > 1 and (len(times) > 1 or len(made) < len(runs))
