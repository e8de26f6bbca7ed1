"""Drift: which causes make runs disagree, is it determined, what to measure next."""

from ozonewright.questions.drift.answer import drift
from ozonewright.questions.drift.result import (
    BandRow,
    CauseRow,
    CurveRow,
    Drift,
    Fit,
    GroupRow,
    NextRow,
    PointRow,
    StepRow,
)
from ozonewright.questions.drift.series import Known, Rig, SeriesRun, Start

__all__ = [
    "BandRow",
    "CauseRow",
    "CurveRow",
    "Drift",
    "Fit",
    "GroupRow",
    "Known",
    "NextRow",
    "PointRow",
    "Rig",
    "SeriesRun",
    "Start",
    "StepRow",
    "drift",
]
