"""A label beside what was measured, on a sheet."""

from __future__ import annotations

from ozonewright.questions.claim import Claim
from ozonewright.show.claim import (
    band_text,
    evidence_text,
    implied_lines,
    page_answer,
    places_text,
)
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.sheet.blocks import Lines, Notes, Section, Table, kept
from ozonewright.show.sheet.run import not_stated


def claim_section(found: Claim, level: int = 1) -> Section:
    """Return the section of a claim."""
    bands = tuple(
        (one.name, band_text(one), places_text(one), evidence_text(one)) for one in found.bands
    )
    blocks = (
        page_answer(found),
        Lines("Next", sentences(found.next), numbered=True),
        Table(
            "What the label would mean here",
            ("what", "label", "measured"),
            tuple(implied_lines(found)),
            frozenset({1, 2}),
        ),
        Table("Published figures", ("of", "from, to", "against it", "source"), bands),
        Lines("Working", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated(found.unknowns),
    )
    of = found.setting or found.run
    title = f"Claim of {of}" if of else "Claim"
    return Section(title, "claim", kept(blocks), found.sources, ("claim",), level)
