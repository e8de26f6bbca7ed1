"""Absorber: how much of the ozone dissolves or reacts, what slips past, what would change it."""

from ozonewright.questions.absorber.answer import absorber
from ozonewright.questions.absorber.result import Absorber, BottleRow, CourseRow, CurveRow, WhatIf
from ozonewright.questions.absorber.run import simulated_run, uptake_of
from ozonewright.questions.absorber.run_result import RunPoint, SimulatedRun

__all__ = [
    "Absorber",
    "BottleRow",
    "CourseRow",
    "CurveRow",
    "RunPoint",
    "SimulatedRun",
    "WhatIf",
    "absorber",
    "simulated_run",
    "uptake_of",
]
