"""How much ozone came out of each run."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ozonewright.bench.load import Source, load_runs
from ozonewright.questions.output import Output, output
from ozonewright.records import run as records

KEPT = 256
"""Runs whose answers are kept while the program runs: several questions ask for the same ones."""


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
        output_of(run, blanks.get(run.setting, ()) if run.discharge_on else ()) for run in runs
    )


def output_of(run: records.Run, blanks: Sequence[records.Run]) -> Output:
    """Return the output of one run, less these field blanks; worked out once for the same ones."""
    return _answered(_Asked(run, tuple(blanks)))


@dataclass(frozen=True, eq=False, slots=True)
class _Asked:
    """A run and its blanks, told apart by being the same objects: records never change."""

    run: records.Run
    blanks: tuple[records.Run, ...]

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, _Asked)
            and self.run is other.run
            and len(self.blanks) == len(other.blanks)
            and all(one is two for one, two in zip(self.blanks, other.blanks, strict=True))
        )

    def __hash__(self) -> int:
        return hash((id(self.run), *map(id, self.blanks)))


@lru_cache(maxsize=KEPT)
def _answered(asked: _Asked) -> Output:
    return output(asked.run, asked.blanks)
