"""Figures by which hazards are judged: what a room takes away, what counts as enriched."""

from __future__ import annotations

from functools import cache

from ozonewright.references.tables import Datum, datum, named, rows


@cache
def _hazards() -> dict[str, Datum]:
    return {row["name"]: datum(row) for row in rows("hazards")}


def hazard(name: str) -> Datum:
    """Return a figure by name, such as ``OXYGEN_ENRICHED``.

    Raises
    ------
    NoDataInRange
        No such figure; the nearest three are told.
    """
    return named(_hazards(), name, "no hazard figure has this name")
