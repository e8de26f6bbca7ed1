"""What the agreement question answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, fact, listing


@dataclass(frozen=True, kw_only=True)
class Comparison(Row):
    """One figure of a case beside ours, both in the unit the source prints."""

    id: str = fact("case, and its figure where it has several", "")
    case: str = fact("case", "")
    figure: str = fact("figure", "")
    subject: str = fact("what was calculated", "")
    got: float = fact("ours", 0.0)
    expected: float = fact("expected", 0.0)
    tolerance: float = fact("greatest permitted difference", 0.0)
    unit: str = fact("unit", "")
    agrees: bool = fact("agrees", False)
    source: str = fact("source", "")
    locator: str = fact("where in the source", "")
    evidence: str = fact("evidence", "")
    why: str = fact("reason of the tolerance", "")


@dataclass(frozen=True, kw_only=True)
class Agreement(Result):
    """Every outside case beside our value."""

    cases: tuple[Comparison, ...] = listing("figures compared")
    case_count: int = fact("cases", 0)
    figure_count: int = fact("figures", 0)
    agree_count: int = fact("figures that agree", 0)
    disagree_count: int = fact("figures that disagree", 0)
    memory_count: int = fact("figures from memory", 0)
    invented_count: int = fact("figures worked out by hand on invented readings", 0)
