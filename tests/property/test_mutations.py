"""A damaged document ends in an answer or a clear error, never in a trace."""

from __future__ import annotations

import json
from typing import Any

import pytest

from ozonewright.bench.output import outputs
from ozonewright.documents.load import read_text
from ozonewright.errors import AppError, Faults
from ozonewright.show.output import outputs_text
from ozonewright.show.plain import as_json
from property.mutations import damaged

COUNT = 1000
PIECES = 10


@pytest.mark.parametrize("piece", range(PIECES))
def test_damage_ends_in_an_answer_or_a_clear_error(piece: int) -> None:
    for seed in range(piece, COUNT, PIECES):
        document = damaged(seed)
        assert all(told(document)), seed


def told(document: dict[str, Any] | str) -> list[str]:
    """Return what a person reads: the answer, or the mend of each fault."""
    try:
        found = outputs([read_text(document) if isinstance(document, str) else document])
    except Faults as faults:
        return [fault.fix for fault in faults]
    except AppError as error:
        return [error.fix]
    json.loads(as_json(found))
    return [outputs_text(found)]


def test_some_damage_is_survived_and_some_is_told() -> None:
    """The yardstick can see both ends."""
    ends = set()
    for seed in range(60):
        document = damaged(seed)
        try:
            outputs([read_text(document) if isinstance(document, str) else document])
            ends.add("answer")
        except AppError:
            ends.add("error")
    assert ends == {"answer", "error"}
