"""Claim: is the label's output credible at these watts and this flow?"""

from ozonewright.questions.claim.answer import claim
from ozonewright.questions.claim.result import Band, Claim, Measurement

__all__ = ["Band", "Claim", "Measurement", "claim"]
