"""Estimates from draws of the fitted model."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ozonewright.questions.generator.fit import Fit
from ozonewright.questions.generator.lumped import Array
from ozonewright.questions.generator.model import Modelled, modelled
from ozonewright.questions.generator.points import Point
from ozonewright.uncertain import Estimate

ENDS = (2.5, 97.5)


def estimate(draws: Array) -> Estimate:
    """Return the middle, spread and 95 % of equally likely draws."""
    low, middle, high = np.percentile(draws, (ENDS[0], 50.0, ENDS[1]))
    u = float(np.std(draws, ddof=1))
    return Estimate(
        value=float(middle),
        u=u,
        dof=np.inf,
        interval=(float(low), float(high)),
        k=float((high - low) / (2.0 * u)) if u > 0.0 else np.inf,
        method="Monte Carlo",
        budget=(),
    )


def at(fit: Fit, points: Sequence[Point]) -> Modelled:
    """Return the model at points with every kept draw."""
    return modelled(fit.lumped, fit.draws, points)
