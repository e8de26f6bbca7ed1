"""Go, fix or stop, before the high voltage goes on."""

from ozonewright.questions.gate.answer import gate
from ozonewright.questions.gate.facts import Breathed, Facts
from ozonewright.questions.gate.result import Check, Gate

__all__ = ["Breathed", "Check", "Facts", "Gate", "gate"]
