"""Our values beside published ones, on a sheet."""

from __future__ import annotations

from ozonewright.questions.agreement import Agreement
from ozonewright.show.agreement import HEAD, answer_line, count_lines, topic_rows
from ozonewright.show.sheet.blocks import Block, Lines, Section, Table, Text, kept

NUMBERS = frozenset({2, 3})


def agreement_section(found: Agreement) -> Section:
    """Return the section of the agreement, a table for each topic."""
    blocks: tuple[Block, ...] = (
        Text(f"{answer_line(found)}."),
        Lines("Counted", tuple(count_lines(found))),
        *(
            Table(topic, (*HEAD, "agrees"), rows, NUMBERS)
            for topic, rows in topic_rows(found).items()
        ),
    )
    return Section("Agreement", "agreement", kept(blocks), found.sources)
