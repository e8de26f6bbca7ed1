"""Two settings beside each other: pooled scatter, ratio, chance to tell."""

from __future__ import annotations

from math import exp

import numpy as np
import pytest
from scipy import stats

from ozonewright.physics.assay.arms import (
    chance_to_tell,
    pooled_scatter,
    ratio_off,
)


def test_pooled_scatter_by_hand() -> None:
    """(2 × 0.03² + 1 × 0.06²) / 3 = 0.0018; a lone run counts for nothing."""
    found = pooled_scatter(scatters=[0.03, 0.06, 0.0], counts=[3, 2, 1])
    assert found == pytest.approx(0.0018**0.5)


def test_ratio_off_by_a_logarithm() -> None:
    assert ratio_off(ratio=2.0, deviation=0.1) == pytest.approx(2.0 * exp(0.1))
    both = ratio_off(ratio=np.array([1.0, 2.0]), deviation=np.array([0.0, -0.1]))
    assert both == pytest.approx([1.0, 2.0 * exp(-0.1)])


@pytest.mark.parametrize(
    ("runs", "difference", "scatter", "printed"),
    [(20, 1.0, 1.0, 0.8689528), (100, 1.0, 2.5, 0.8036466), (16.71477, 1.0, 1.0, 0.80)],
)
def test_chance_as_printed_by_another_program(
    runs: float, difference: float, scatter: float, printed: float
) -> None:
    """Output of power.t.test of the language R, as several texts print it."""
    critical = stats.t.ppf(0.975, 2.0 * runs - 2.0)
    found = chance_to_tell(
        difference=difference, scatter=scatter, runs_per_arm=runs, critical=critical
    )
    assert found == pytest.approx(printed, abs=5e-7)


@pytest.mark.parametrize("runs", [2, 3, 5, 12, 50])
@pytest.mark.parametrize("difference", [0.0, 0.3, 1.5, 6.0])
def test_chance_against_an_independent_library(runs: int, difference: float) -> None:
    """scipy's non-central t."""
    dof = 2 * runs - 2
    critical = float(stats.t.ppf(0.975, dof))
    wanted = stats.nct.sf(critical, dof, difference * (runs / 2) ** 0.5)
    found = chance_to_tell(
        difference=difference, scatter=1.0, runs_per_arm=float(runs), critical=critical
    )
    assert found == pytest.approx(wanted, abs=1e-9)


def test_chance_over_arrays_rises_with_the_difference() -> None:
    differences = np.array([0.0, 0.5, 1.0, 4.0])
    found = chance_to_tell(difference=differences, scatter=1.0, runs_per_arm=4.0, critical=2.4469)
    assert found[0] == pytest.approx(0.025, abs=1e-5)
    assert (np.diff(found) > 0.0).all()
    runs = np.array([2.0, 4.0, 8.0])
    critical = stats.t.ppf(0.975, 2.0 * runs - 2.0)
    more = chance_to_tell(difference=1.0, scatter=1.0, runs_per_arm=runs, critical=critical)
    assert (np.diff(more) > 0.0).all()
