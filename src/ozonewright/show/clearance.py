"""The clearance as text, and as the parts of a page."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ozonewright.questions.clearance import Clearance, TestRow, WasteRow
from ozonewright.show.numbers import quantity
from ozonewright.show.words import sentence
from ozonewright.show.wrap import foot, noted, numbered, wrapped
from ozonewright.units import Kind

STATES = {"locked": ("■", "Locked, do not evaporate"), "clear": ("□", "Clear to evaporate")}
"""A mark and words, so that colour is never needed."""


def answer_line(found: Clearance) -> str:
    """Return the one line that answers."""
    return f"{STATES[found.state][1]}: {found.reaction}"


def why_line(found: Clearance) -> str:
    """Return why."""
    return sentence(found.why) if found.why else ""


def test_texts(row: TestRow) -> tuple[str, str, str, str, str]:
    """Return a test as the cells of a table."""
    counts = "counts" if row.counts else "does not count"
    return _when(row.when), row.reading, row.method or "", row.by or "", counts


def waste_texts(row: WasteRow) -> tuple[str, str, str, str]:
    """Return a stream as the cells of a table: stream, neutraliser, how, never with."""
    if row.mass is not None:
        amount = f"{quantity(row.mass, Kind.MASS, 'g', figures=2)} of {row.neutraliser} or more"
    elif row.neutraliser == "none":
        amount = "no neutraliser"
    else:
        amount = f"{row.neutraliser}; the amount is not known from the reaction"
    return row.stream, amount, row.how, row.never


def clearance_text(found: Clearance) -> str:
    """Return the answer for a terminal."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Clearance) -> Iterator[str]:
    yield f"{STATES[found.state][0]} {answer_line(found)}"
    yield from wrapped(why_line(found))
    if found.needed:
        yield from ("", "Needed")
        yield from numbered(found.needed)
    if found.tests:
        yield from ("", "Peroxide tests")
        for row in found.tests:
            when, reading, method, by, counts = test_texts(row)
            yield f"  {when:<14} {reading:<9} {method:<10} {by:<10} {counts}".rstrip()
    yield from ("", "Waste")
    for waste in found.waste:
        stream, amount, how, never = waste_texts(waste)
        yield from wrapped(f"{stream}: {amount}; {how}.", "  ", "    ")
        yield from wrapped(f"Never with {never}.", "    ")
    yield from noted(found.notes)
    yield from foot((), found.sources)


def _when(when: datetime | None) -> str:
    return f"{when.day} {when:%b, %H:%M}" if when else ""
