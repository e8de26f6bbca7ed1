"""From a rig document, as a file or a table, to its record."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ozonewright.bench.load import Source, table_of
from ozonewright.documents.convert_rig import rig_record
from ozonewright.documents.kinds import documents_in
from ozonewright.documents.rig import RigDocument
from ozonewright.documents.section import validated
from ozonewright.errors import InputError, MissingValue
from ozonewright.records.rig import Rig


def rig_of(table: Mapping[str, Any]) -> Rig:
    """Return the record of one rig document."""
    return rig_record(validated(RigDocument, table))


def load_rig(source: Source) -> Rig:
    """Return the one rig of a file or a table.

    Raises
    ------
    Faults
        Every fault of the document.
    InputError
        Another kind of document, or more than one rig.
    """
    table = table_of(source)
    if "rig" not in table:
        raise MissingValue(
            "no [rig] is written here",
            got=", ".join(list(table)[:5]),
            fix="Begin with [rig], then one [[part]] for each part in flow order.",
        )
    found = documents_in(table)
    if len(found) != 1:
        raise InputError(
            "one rig is wanted", got=f"{len(found)}", fix="Give each rig a file of its own."
        )
    return rig_of(found[0][1])
