"""What the parts of a gas line have in common."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.documents.section import Given, Section
from ozonewright.documents.typed import (
    Above,
    Flow,
    Temperature,
)
from ozonewright.documents.words import Names
from ozonewright.errors import AppError, MissingValue


class PartSection(Section):
    """What every part may say."""

    kind: str
    name: str | None = None
    after: Names | None = None
    material: Names | None = None
    temperature: Temperature | None = None
    remark: str | None = None


def together(given: Given, one: str, other: str, example: str) -> Iterator[AppError]:
    """Yield that of two fields which only mean something together one is missing."""
    if (one in given) != (other in given):
        lacking, there = (one, other) if one not in given else (other, one)
        yield MissingValue(f"{there} needs {lacking} beside it", where=lacking, fix=example)


class Passing(PartSection):
    """A part known by one reading: so much air passes at so much loss of pressure."""

    passes: Flow | None = None
    at: Above | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        example = 'Write passes = "2 L/min" and at = "1.2 kPa", as read.'
        yield from together(given, "passes", "at", example)
