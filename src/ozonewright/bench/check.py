"""Whether documents are sound, and what they leave open."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.bench.load import Source, load_runs
from ozonewright.questions.output import output
from ozonewright.questions.output.gaps import Gaps, gaps


def check(sources: Sequence[Source]) -> tuple[Gaps, ...]:
    """Return the gaps of every document; faults are raised together."""
    return tuple(gaps(output(run), run.place) for run in load_runs(sources))
