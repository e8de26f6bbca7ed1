"""Where an uncertainty comes from, for a terminal and for a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ozonewright.results import Share
from ozonewright.show.numbers import percent

LEAST = 0.005
"""Inputs below half a per cent of the variance are not told."""


def worth_telling(shares: Iterable[Share]) -> list[Share]:
    """Return the inputs that matter, the largest first."""
    return [line for line in shares if line.share and abs(line.share) >= LEAST]


def budget_text(shares: Iterable[Share], of: str, most: int) -> Iterator[str]:
    """Yield the inputs that matter under their head, or nothing where there are none."""
    lines = worth_telling(shares)[:most]
    if not lines:
        return
    yield from ("", f"Where the uncertainty of {of} comes from")
    width = max(len(line.input) for line in lines)
    for line in lines:
        yield f"  {line.input:<{width}}  {percent(line.share or 0.0):>6}"
