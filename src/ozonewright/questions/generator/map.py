"""Output over many flows and powers, with intervals, to first order in what is unknown."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ozonewright.questions.generator.fit import Fit
from ozonewright.questions.generator.lumped import Array
from ozonewright.questions.generator.model import modelled
from ozonewright.questions.generator.points import Point

REACH = 1.96
"""Standard deviations of a normal distribution that hold 95 %."""


@dataclass(frozen=True, slots=True)
class Map:
    """Ozone at each flow and power, shape (flows, powers). [mol/s]"""

    rate: Array
    low: Array
    high: Array


def mapped(fit: Fit, point: Point, flows: Array, powers: Array) -> Map:
    """Return the output over a grid, the rest as at a point.

    The interval is of the logarithm, from the slopes along the axes of the fit's covariance.
    """
    points = [
        replace(point, flow=float(flow), power=float(power)) for flow in flows for power in powers
    ]
    around = np.vstack([fit.centre, fit.centre + fit.factor.T])
    logarithms = np.log(modelled(fit.lumped, around, points).rate)
    middle = logarithms[0]
    reach = REACH * np.sqrt(((logarithms[1:] - middle) ** 2).sum(axis=0))
    shape = (len(flows), len(powers))
    return Map(*(np.exp(each).reshape(shape) for each in (middle, middle - reach, middle + reach)))
