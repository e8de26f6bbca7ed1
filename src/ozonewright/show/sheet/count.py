"""What the bench events of a run or reaction add up to, on a sheet."""

from __future__ import annotations

from ozonewright.questions.count import Count
from ozonewright.show.clock import day_time, minutes_seconds
from ozonewright.show.count import answer_line, plan_text, remaining_text, state_text
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.sheet.blocks import Lines, Notes, Section, Table, Text, kept

MARKS = ("mark", "at on-time", "")
EVENTS = ("when", "event", "on-time then")


def count_section(found: Count, level: int = 1) -> Section:
    """Return the section of a count."""
    marks = tuple(
        (
            mark.name,
            minutes_seconds(mark.on_time or 0.0),
            "passed" if mark.passed else f"in {minutes_seconds(mark.left or 0.0)}",
        )
        for mark in found.marks
    )
    events = tuple(
        (day_time(row.when) if row.when else "", row.what, minutes_seconds(row.on_time or 0.0))
        for row in found.events
    )
    told = tuple(text for text in (plan_text(found), remaining_text(found)) if text)
    blocks = (
        Text(f"{answer_line(found)}."),
        Text(". ".join([*told, state_text(found)]) + "."),
        Lines("Next", sentences(found.next), numbered=True),
        Table("Marks", MARKS, marks, frozenset({1})),
        Table("Events", EVENTS, events, frozenset({2})),
        Notes("Notes", remarks(found.notes)),
    )
    title = f"Count of {found.of}"
    return Section(title, "count", kept(blocks), found.sources, ("count",), level)
