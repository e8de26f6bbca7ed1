"""The entry document: one event at the bench, a test, a reading, a file."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Any

from ozonewright.documents.section import Reader, Section
from ozonewright.errors import MissingValue, UnitError


def _what(value: Any) -> str:
    if not isinstance(value, str) or not value.strip():
        raise MissingValue(
            "what happened?",
            got=str(value),
            fix='Write it in a few words: what = "gas on", "peroxide test", "detector".',
        )
    return value


def _value(value: Any) -> str:
    if not isinstance(value, str):
        raise UnitError(
            "a value is text with its unit", got=str(value), fix='Write "0.08 ppm" or "negative".'
        )
    return value


class EntrySection(Section):
    label: str | None = None
    by: str | None = None
    remark: str | None = None
    when: datetime | None = None
    of: str | None = None
    what: Annotated[str, Reader(_what)]
    value: Annotated[str | None, Reader(_value)] = None


class EntryDocument(Section):
    """One bench event, in the words of whoever was there."""

    entry: EntrySection
