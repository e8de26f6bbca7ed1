"""The runs that would tell two settings apart, and their order."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.physics.assay.arms import chance_to_tell
from ozonewright.questions.comparison.result import Planned
from ozonewright.uncertain import coverage_factor

COVERAGE = 0.95
POWER = 0.80
"""Chance to tell a difference that is there (common practice, no source)."""
USUAL = (0.02, 0.05, 0.10)
"""Differences that are told of when none is asked for."""
MOST_RUNS = 50
MOST_IN_ORDER = 12


def planned(scatter: float, systematic: float, wanted: float | None) -> tuple[Planned, ...]:
    """Return the runs of each setting for a difference, or for three usual ones.

    What no run improves (`systematic`, relative) is first taken off the difference.
    """
    asked = USUAL if wanted is None else (wanted,)
    return tuple(
        Planned(difference=one, runs_per_arm=runs_needed(one, scatter, systematic)) for one in asked
    )


def runs_needed(difference: float, scatter: float, systematic: float) -> int | None:
    """Return the runs of each setting, or None where not even fifty tell the difference."""
    left = difference - coverage_factor(COVERAGE, float("inf")) * systematic
    if left <= 0.0:
        return None
    if scatter <= 0.0:
        return 2
    for runs in range(2, MOST_RUNS + 1):
        critical = coverage_factor(COVERAGE, 2.0 * runs - 2.0)
        chance = chance_to_tell(
            difference=left, scatter=scatter, runs_per_arm=float(runs), critical=critical
        )
        if chance >= POWER:
            return runs
    return None


def alternated(first: str, second: str, plan: Sequence[Planned]) -> list[str]:
    """Return the order of the runs for the middle difference: there and back, so that a drift
    falls on both settings alike."""
    middle = plan[len(plan) // 2].runs_per_arm
    if middle is None or middle > MOST_IN_ORDER:
        return []
    blocks = (first, second), (second, first)
    return [name for place in range(middle) for name in blocks[place % 2]]
