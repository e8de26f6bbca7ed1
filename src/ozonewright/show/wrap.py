"""Text for a terminal: lines of eighty, a number never parted from its per cent or its ±."""

from __future__ import annotations

from textwrap import fill

WIDTH = 80
KEPT = (" %", " °C", " ± ")
MARKS = {"wrong": "■", "doubt": "◪", "advice": "□"}
"""A mark before a note for each level: an outline, half and full square, never colour alone."""


def wrapped(text: str, lead: str = "", further: str | None = None) -> list[str]:
    """Return the lines of a paragraph; `further` leads all but the first."""
    for kept in KEPT:
        text = text.replace(kept, kept.replace(" ", "\u00a0"))
    lines = fill(
        text,
        WIDTH,
        initial_indent=lead,
        subsequent_indent=" " * len(lead or "  ") if further is None else further,
        break_on_hyphens=False,
        break_long_words=False,
    )
    return lines.replace("\u00a0", " ").splitlines()
