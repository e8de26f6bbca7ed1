"""What materials stand: every rating with its source, so that disagreement can be seen."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ozonewright.errors import UnknownSubstance, nearest
from ozonewright.references.tables import rows

Medium = Literal["ozone", "wet ozone", "oxygen", "solvent", "cold"]
Rating = Literal["use", "short", "avoid"]
WORST: tuple[Rating, ...] = ("use", "short", "avoid")
"""From best to worst; *short* is for short runs or low concentration."""


@dataclass(frozen=True, slots=True)
class MaterialRating:
    """What one source says of one material in one medium."""

    name: str
    also: tuple[str, ...]
    medium: Medium
    rating: Rating
    source: str
    locator: str
    evidence: str
    note: str


@cache
def _ratings() -> tuple[MaterialRating, ...]:
    return tuple(
        MaterialRating(
            name=row["name"],
            also=tuple(name for name in row["also"].split(";") if name),
            medium=row["medium"],  # type: ignore[arg-type]  # the words of the table are tested
            rating=row["rating"],  # type: ignore[arg-type]  # the words of the table are tested
            source=row["source"],
            locator=row["locator"],
            evidence=row["evidence"],
            note=row["note"],
        )
        for row in rows("materials")
    )


def material(name: str) -> str:
    """Return the first name of a material, whichever of its names is given.

    Raises
    ------
    UnknownSubstance
        No such material; the nearest three are told.
    """
    wanted = name.strip().casefold()
    for row in _ratings():
        if wanted in (one.casefold() for one in (row.name, *row.also)):
            return row.name
    known = {one for row in _ratings() for one in (row.name, *row.also)}
    raise UnknownSubstance("no shipped material has this name", got=name, fix=nearest(name, known))


def ratings(name: str, medium: Medium) -> tuple[MaterialRating, ...]:
    """Return every rating of a material in a medium; none where nobody rated it.

    Wet ozone is judged by what is known of ozone too: it is never milder than dry.
    """
    first = material(name)
    media = ("ozone", "wet ozone") if medium == "wet ozone" else (medium,)
    return tuple(row for row in _ratings() if row.name == first and row.medium in media)


def worst(found: tuple[MaterialRating, ...]) -> Rating | None:
    """Return the worst of several ratings; None where there is none."""
    return max((row.rating for row in found), key=WORST.index, default=None)


def disagree(found: tuple[MaterialRating, ...]) -> bool:
    """Whether the sources differ."""
    return len({row.rating for row in found}) > 1
