"""Comparison: what else differed between two settings, and whether the ratio is real."""

from ozonewright.questions.comparison.answer import comparison
from ozonewright.questions.comparison.result import (
    Arm,
    ComparedRun,
    Comparison,
    Differing,
    Made,
    Planned,
)

__all__ = ["Arm", "ComparedRun", "Comparison", "Differing", "Made", "Planned", "comparison"]
