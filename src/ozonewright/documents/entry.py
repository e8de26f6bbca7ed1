"""The entry document: one event at the bench, a test, a reading, a file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Annotated, Any, Literal

from ozonewright.documents.section import Given, Reader, Section
from ozonewright.documents.typed import Rest, Typed, typed
from ozonewright.errors import AppError, InputError, MissingValue, UnitError
from ozonewright.units import Kind

VALUES: dict[str, tuple[Kind, ...]] = {
    "planned on-time": (Kind.TIME,),
    "output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "uptake": (Kind.SHARE,),
    "wanted": (Kind.AMOUNT,),
    "titre": (Kind.VOLUME,),
    "detector": (Kind.MOLE_FRACTION, Kind.MASS_CONCENTRATION),
    "tube temperature": (Kind.TEMPERATURE,),
}
"""Words of `what` whose value is a quantity, and of which kinds."""


GATE = ("go", "fix", "stop")
"""What an entry ``gate`` may say."""


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


PEROXIDE_TEST = "peroxide test"
QUENCH = "quench"
PEROXIDE_KINDS = (Kind.MASS_CONCENTRATION, Kind.MOLE_FRACTION)


def peroxide_reading(value: str) -> Literal["negative", "positive"]:
    """Return what a peroxide test says: a word, or a concentration, of which any is positive."""
    word = value.strip().lower()
    if word in ("negative", "positive"):
        return "negative" if word == "negative" else "positive"
    try:
        found = typed(value, PEROXIDE_KINDS, least=0.0)
    except AppError as error:
        raise InputError(
            "a peroxide test is negative or positive",
            got=value,
            fix='Write value = "negative", "positive", or what the strip reads: "5 mg/L".',
        ) from error
    return "positive" if found.value > 0.0 else "negative"


def kinds_of(what: str) -> tuple[Kind, ...]:
    """Return the kinds of quantity that stand beside a word; none where any text will do."""
    return VALUES.get("titre" if what.startswith("titre of ") else what, ())


def quantity_of(what: str, value: str) -> Typed:
    """Return the quantity typed as the value of an entry whose word asks for one."""
    kinds = kinds_of(what)
    if kinds == (Kind.VOLUME,) or what == "detector":
        return typed(value, kinds, least=0.0)
    return typed(value, kinds, above=0.0, most=1.0 if kinds == (Kind.SHARE,) else None)


class ClockSection(Section):
    """The clocks at the event: what a wall clock that is set meanwhile can't spoil."""

    monotonic: Rest
    boot: str
    """Names the running system: monotonic times of two boots can't be compared."""


class EntrySection(Section):
    label: str | None = None
    by: str | None = None
    remark: str | None = None
    when: datetime | None = None
    of: str | None = None
    what: Annotated[str, Reader(_what)]
    value: Annotated[str | None, Reader(_value)] = None
    method: str | None = None
    """How a test was made: strip, iodide, …"""
    sent_after: Rest | None = None
    """How much later it was sent, where the page had no answer at the time."""
    clock: ClockSection | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        what, value = given["what"], given["value"]
        if what in (PEROXIDE_TEST, QUENCH):
            yield from _test_faults(given)
        if what == "gate" and value not in GATE:
            fix = 'Write value = "go", "fix" or "stop", as the gate answered.'
            yield InputError(
                "the gate says one of three words", where="value", got=str(value or ""), fix=fix
            )
        if not what or not kinds_of(what):
            return
        if value is None:
            fix = f'Write value = "…" with its unit beside what = "{what}".'
            yield MissingValue("this word needs a value", where="value", fix=fix)
            return
        try:
            quantity_of(what, value)
        except AppError as error:
            yield error.at("value")


def _test_faults(given: Given) -> Iterator[AppError]:
    """Yield what a peroxide test or a quench lacks: whose it is, its reading, its time."""
    what, value = given["what"], given["value"]
    if not given["of"]:
        fix = 'Write of = "…", the label of the reaction.'
        yield MissingValue("of which reaction?", where="of", fix=fix)
    if what == PEROXIDE_TEST and value is None:
        fix = 'Write value = "negative" or "positive".'
        yield MissingValue("what did the test say?", where="value", fix=fix)
        return
    if value is None:
        return
    try:
        if what == QUENCH:
            typed(value, (Kind.TIME,), above=0.0)
        else:
            peroxide_reading(value)
    except AppError as error:
        yield error.at("value")


class EntryDocument(Section):
    """One bench event, in the words of whoever was there."""

    entry: EntrySection
