"""Clearance: whether a solution may be evaporated after ozone, and what becomes of the waste."""

from ozonewright.questions.clearance.judge import clearance
from ozonewright.questions.clearance.result import Clearance, TestRow, WasteRow

__all__ = ["Clearance", "TestRow", "WasteRow", "clearance"]
