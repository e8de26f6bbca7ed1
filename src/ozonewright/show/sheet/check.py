"""What a document leaves open, on a sheet."""

from __future__ import annotations

from ozonewright.questions.output.gaps import Gaps
from ozonewright.show.check import check_text
from ozonewright.show.sheet.blocks import Lines, Section, Text, kept


def check_section(found: Gaps) -> Section:
    """Return the section of one document that was read without fault."""
    blocks = (
        Text(check_text([found]).splitlines()[0]),
        Lines("Not stated", tuple(found.unknowns)),
        Lines("Answers that wait for it", tuple(found.waiting)),
    )
    return Section(f"{found.kind} {found.label or found.place}", "check", kept(blocks))
