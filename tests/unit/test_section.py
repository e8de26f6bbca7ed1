"""How a table of a document is read: every type of field, and every fault at once."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from typing import Annotated, Literal

import pytest

from ozonewright.documents.section import Given, Reader, Section, as_written, validated
from ozonewright.errors import AppError, Faults, Inconsistent, InputError


def _even(value: object) -> int:
    if not isinstance(value, int):
        raise InputError("a number is wanted", fix="Write 2.")
    if value % 2:
        raise Faults(
            [InputError("odd", fix="Write 2."), InputError("ugly", where="deep", fix="Write 4.")]
        )
    return value


class Inner(Section):
    name: str
    word: Literal["one", "two"] = "one"
    only: Literal["this"] = "this"


class Outer(Section):
    """A document for these tests."""

    number: Annotated[int, Reader(_even)]
    inner: Inner
    text: str | None = None
    truth: bool = False
    moment: datetime | None = None
    day: date | None = None
    several: tuple[Inner, ...] = ()
    texts: tuple[str, ...] = ()
    tables: tuple[dict[str, object], ...] = ()
    share: float | None = None
    count: int = 1

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if given["truth"] and "text" not in given:
            yield Inconsistent("true without a text", where="text", fix="Write one.")


class Later(Outer):
    more: str = "more"


GOOD = {"number": 2, "inner": {"name": "a"}}


def faults(data: dict[str, object]) -> dict[str, str]:
    with pytest.raises(Faults) as caught:
        validated(Outer, data)
    return {fault.where: fault.what for fault in caught.value}


def mend(data: dict[str, object]) -> str:
    with pytest.raises(Faults) as caught:
        validated(Outer, data)
    (fault,) = caught.value
    return fault.fix


def test_defaults_stand_where_nothing_is_written() -> None:
    found = validated(Outer, GOOD)
    assert (found.number, found.inner.name, found.inner.word) == (2, "a", "one")
    assert (found.text, found.truth, found.several) == (None, False, ())


def test_every_simple_type() -> None:
    moment = datetime(2026, 5, 9, 10, 20)
    found = validated(Outer, GOOD | {"text": "x", "truth": True, "moment": moment,
                                     "day": moment.date(), "texts": ["a", "b"]})  # fmt: skip
    assert (found.text, found.truth, found.moment, found.day) == ("x", True, moment, moment.date())
    assert found.texts == ("a", "b")


def test_numbers_and_tables_of_any_kind() -> None:
    found = validated(Outer, GOOD | {"tables": [{"a": 1}], "share": 2, "count": 3})
    assert (found.tables, found.share, found.count) == (({"a": 1},), 2.0, 3)


@pytest.mark.parametrize("value", [True, "1", float("nan"), float("inf")])
def test_what_is_no_plain_number_is_refused(value: object) -> None:
    assert faults(GOOD | {"share": value}) == {"share": "a plain number is wanted"}


@pytest.mark.parametrize("value", [True, "1", 1.5])
def test_what_is_no_count_is_refused(value: object) -> None:
    assert faults(GOOD | {"count": value}) == {"count": "a whole number is wanted"}


def test_dates_may_be_text_as_forms_send_them() -> None:
    found = validated(Outer, GOOD | {"moment": "2026-05-09T10:20", "day": "2026-05-09"})
    assert found.moment == datetime(2026, 5, 9, 10, 20)
    assert found.day == date(2026, 5, 9)


def test_an_empty_field_that_may_be_left_out_is_nothing() -> None:
    assert validated(Outer, GOOD | {"text": None}).text is None


def test_a_section_inherits_fields() -> None:
    found = validated(Later, GOOD | {"text": "x"})
    assert (found.text, found.more, found.number) == ("x", "more", 2)


def test_a_section_made_already_is_taken_as_it_is() -> None:
    inner = validated(Inner, {"name": "b"})
    assert validated(Outer, GOOD | {"inner": inner}).inner is inner


def test_nothing_changes_once_read() -> None:
    with pytest.raises(AttributeError, match="does not change"):
        validated(Outer, GOOD).text = "other"
    assert repr(validated(Inner, {"name": "a"})) == "Inner(name='a', word='one', only='this')"


def test_every_fault_is_told_at_once_with_its_place() -> None:
    wrong = {
        "number": "x", "text": 3, "truth": "yes", "moment": "soon", "day": 7, "nmber": 1,
        "several": [{"name": "a"}, {"word": "three"}, 4], "texts": "a",
    }  # fmt: skip
    assert faults(wrong) == {
        "number": "a number is wanted",
        "inner": "this is missing",
        "text": "text is wanted",
        "truth": "true or false is wanted",
        "moment": "a date with its time is wanted",
        "day": "a date is wanted",
        "several[2].name": "this is missing",
        "several[2].word": "this word is not one of the choices",
        "several[3]": "a table is wanted",
        "texts": "a list is wanted",
        "nmber": "this word is not known here",
    }


def test_a_reader_may_find_several_faults() -> None:
    assert faults(GOOD | {"number": 3}) == {"number": "odd", "number.deep": "ugly"}


def test_contradictions_are_told_beside_other_faults() -> None:
    found = faults(GOOD | {"truth": True, "texts": [1]})
    assert found == {"texts[1]": "text is wanted", "text": "true without a text"}


def test_a_field_that_is_written_but_unreadable_is_not_called_missing() -> None:
    assert faults(GOOD | {"truth": True, "text": 3}) == {"text": "text is wanted"}


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"number": 2, "inner": 5}, "Write [inner] with its fields below."),
        ({**GOOD, "nmber": 5}, "Nearest: number"),
        ({**GOOD, "inner": {"name": "a", "word": "three"}}, 'Write "one" or "two".'),
        ({**GOOD, "inner": {"name": "a", "only": "that"}}, 'Write "this".'),
        ({**GOOD, "inner": {"name": 3}}, 'Write it in quotes: name = "…".'),
        ({**GOOD, "several": [3]}, "Write several = [ { name = … }, … ]"),
        ({**GOOD, "day": datetime(2026, 5, 9)}, "Write day = 2026-05-09, without quotes."),
        ({**GOOD, "tables": ["x"]}, "Write tables = [ { name = … }, … ]"),
        ({**GOOD, "day": "soon"}, "Write day = 2026-05-09, without quotes."),
        ({"number": 2}, "Write inner = … as it was read."),
    ],
)
def test_every_mend_names_what_to_write(data: dict[str, object], words: str) -> None:
    assert mend(data).startswith(words)


def test_what_was_given_is_cut_to_what_a_message_can_hold() -> None:
    assert as_written(True) == "true"
    assert len(as_written("x" * 500)) == 80
