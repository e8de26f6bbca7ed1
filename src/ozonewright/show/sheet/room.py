"""A room on a sheet: ozone, oxygen, and what its detector tells."""

from __future__ import annotations

from ozonewright.questions.room.detector import DetectorAnswer
from ozonewright.questions.room.oxygen import OxygenAnswer
from ozonewright.questions.room.result import RoomAnswer
from ozonewright.results import Result
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.room import (
    answer_line,
    case_rows,
    course_figure,
    detector_facts,
    detector_line,
    facts,
    first_half_hour,
    oxygen_facts,
    oxygen_line,
    sureness_line,
)
from ozonewright.show.sheet.blocks import Block, Figure, Lines, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.show.sheet.run import not_stated
from ozonewright.units import Kind

TITLE = "Ozone in the room against time"
CAPTION = "The first half hour, the room on the whole."
CASES = ("what gets out", "ozone", "in the end", "limit after")
FACTS = ("figure", "value")


def room_section(found: RoomAnswer, level: int = 1) -> Section:
    """Return the section of a room that ozone gets into."""
    cases = tuple(case_rows(found))
    blocks = (
        Text(f"{answer_line(found)}."),
        Text(sureness_line(found)),
        Lines("Next", sentences(found.next), numbered=True),
        room_figure(found),
        Table("What it comes to", FACTS, tuple(facts(found)), frozenset({1})),
        Table("Ways out", CASES, cases, frozenset({1, 2, 3})),
        *_told(found),
    )
    title = f"Room {found.room}" if found.room else "Room"
    return Section(title, "room", kept(blocks), found.sources, ("room",), level)


def room_figure(found: RoomAnswer) -> Figure:
    """Return the rise of the ozone over the first half hour."""
    rows = tuple(
        (
            figure_text(row.time, Kind.TIME, "min"),
            figure_text(row.ozone, Kind.MOLE_FRACTION, "ppm"),
            figure_text(row.high, Kind.MOLE_FRACTION, "ppm"),
        )
        for row in first_half_hour(found)
    )
    head = ("time / min", "ozone / ppm", "in one room of forty more than / ppm")
    words = "; ".join(f"{ozone} ppm after {time} min" for time, ozone, _ in rows)
    data = Table(TITLE, head, rows, frozenset({0, 1, 2}))
    return Figure(
        f"{found.room or 'room'}, ozone",
        TITLE,
        course_figure(found),
        f"{words}.",
        data,
        caption=CAPTION,
    )


def oxygen_section(found: OxygenAnswer, level: int = 1) -> Section:
    """Return the section of a room that oxygen gets into."""
    blocks = (
        Text(f"{oxygen_line(found)}."),
        Lines("Next", sentences(found.next), numbered=True),
        Table("What it comes to", FACTS, tuple(oxygen_facts(found)), frozenset({1})),
        *_told(found),
    )
    title = f"Oxygen in {found.room}" if found.room else "Oxygen in the room"
    return Section(title, "room", kept(blocks), found.sources, ("room",), level)


def detector_section(found: DetectorAnswer, level: int = 1) -> Section:
    """Return what the detector of a room tells."""
    line = detector_line(found)
    blocks = (
        Text(f"{line[:1].upper()}{line[1:]}."),
        Lines("Next", sentences(found.next), numbered=True),
        Table("What it comes to", FACTS, tuple(detector_facts(found)), frozenset({1})),
        *_told(found),
    )
    return Section("Detector", "room", kept(blocks), found.sources, ("room",), level)


def _told(found: Result) -> tuple[Block, ...]:
    names = [name.partition(".")[2].replace("_", " ") for name in found.unknowns]
    return (
        Lines("Working", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated(names),
    )
