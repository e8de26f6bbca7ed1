"""Cases about the comparison of two settings: chances and numbers of runs."""

from __future__ import annotations

from itertools import count

from ozonewright.physics.assay.arms import chance_to_tell
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.uncertain import coverage_factor
from ozonewright.units import Kind

CONFIDENCE = 0.95
CHANCE = 0.80
"""As the cases have it."""


def _chance(inputs: Inputs, runs: float) -> float:
    return float(
        chance_to_tell(
            difference=si(inputs, "difference", Kind.DIMENSIONLESS),
            scatter=si(inputs, "scatter", Kind.DIMENSIONLESS),
            runs_per_arm=runs,
            critical=coverage_factor(CONFIDENCE, 2.0 * runs - 2.0),
        )
    )


def _chance_to_tell(inputs: Inputs) -> dict[str, Found]:
    runs = si(inputs, "runs_per_arm", Kind.DIMENSIONLESS)
    return {"chance": Found(_chance(inputs, runs), Kind.DIMENSIONLESS)}


def _runs_needed(inputs: Inputs) -> dict[str, Found]:
    runs = next(float(runs) for runs in count(2) if _chance(inputs, float(runs)) >= CHANCE)
    return {"runs": Found(runs, Kind.DIMENSIONLESS)}


BINDINGS: dict[str, Binding] = {
    "comparison.chance_to_tell": _chance_to_tell,
    "comparison.runs_needed": _runs_needed,
}
