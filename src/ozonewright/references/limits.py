"""The limits of published procedures and of common practice, for the judgement."""

from __future__ import annotations

from functools import cache

from ozonewright.references.tables import Datum, datum, named, rows

TABLES = ("limits_procedure", "limits_gas")


@cache
def _limits() -> dict[str, Datum]:
    return {row["name"]: datum(row) for table in TABLES for row in rows(table)}


def limit(name: str) -> Datum:
    """Return a procedure limit by name, such as ``FLOW_HIGH``.

    Raises
    ------
    NoDataInRange
        No such limit; the nearest three are told.
    """
    return named(_limits(), name, "no procedure limit has this name")
