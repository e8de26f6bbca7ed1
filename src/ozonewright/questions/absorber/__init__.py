"""Absorber: how much of the ozone dissolves or reacts, what slips past, what would change it."""

from ozonewright.questions.absorber.answer import absorber
from ozonewright.questions.absorber.result import Absorber, BottleRow, CurveRow, WhatIf

__all__ = ["Absorber", "BottleRow", "CurveRow", "WhatIf", "absorber"]
