"""Uncertain values: what goes in, what comes out, and how it is propagated.

Physics never sees any of this: it stays pure functions on SI floats and arrays. Correlation is by
*name*: two inputs of one name are one input, wherever they are used.
"""

from ozonewright.uncertain.inputs import (
    HALF_WIDTHS,
    Measured,
    Shape,
    from_tolerance,
    repeats,
)
from ozonewright.uncertain.monte_carlo import Samples, monte_carlo
from ozonewright.uncertain.propagation import Estimate, Propagated, Share, alone, propagate
from ozonewright.uncertain.student import coverage_factor

__all__ = [
    "HALF_WIDTHS",
    "Estimate",
    "Measured",
    "Propagated",
    "Samples",
    "Shape",
    "Share",
    "alone",
    "coverage_factor",
    "from_tolerance",
    "monte_carlo",
    "propagate",
    "repeats",
]
