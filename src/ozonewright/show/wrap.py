"""Text for a terminal: lines of eighty, a number never parted from its per cent or its ±."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from textwrap import fill

from ozonewright.results import Note
from ozonewright.show.words import sentence

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


def numbered(notes: Iterable[Note]) -> Iterator[str]:
    """Yield notes in their order, each with its number."""
    for number, note in enumerate(notes, start=1):
        yield from wrapped(sentence(note), f"  {number} ")


def marked(notes: Iterable[Note]) -> Iterator[str]:
    """Yield notes with the mark of their level, what is wrong first."""
    for note in sorted(notes, key=lambda note: list(MARKS).index(note.level)):
        yield from wrapped(sentence(note), f"  {MARKS[note.level]} ")


def noted(notes: Iterable[Note]) -> Iterator[str]:
    """Yield notes under their head, or nothing where there are none."""
    lines = list(marked(notes))
    if lines:
        yield from ("", "Notes", *lines)


def unmarked(notes: Iterable[Note]) -> Iterator[str]:
    """Yield lines of working: no mark, further lines indented."""
    for note in notes:
        yield from wrapped(sentence(note), "  ", "    ")


def foot(unknowns: Sequence[str], sources: Sequence[str]) -> Iterator[str]:
    """Yield what is not stated, and the sources."""
    if unknowns:
        yield ""
        yield from wrapped(f"Not stated: {', '.join(unknowns)}.")
    if sources:
        yield from wrapped(f"Sources: {', '.join(sources)} (docs/sources.md).")
