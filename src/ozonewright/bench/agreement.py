"""Our values beside published ones."""

from __future__ import annotations

from ozonewright.questions.agreement import Agreement
from ozonewright.questions.agreement import agreement as compared
from ozonewright.references.cases import cases


def agreement() -> Agreement:
    """Return every shipped case beside our value."""
    return compared(cases())
