"""Agreement: every outside case beside our own value."""

from ozonewright.questions.agreement.answer import agreement
from ozonewright.questions.agreement.result import Agreement, Comparison

__all__ = ["Agreement", "Comparison", "agreement"]
