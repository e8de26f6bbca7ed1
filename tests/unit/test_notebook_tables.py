"""A typed table as stored text and back."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ozonewright.errors import InputError
from ozonewright.notebook.tables import offsets, returned, stored, whole_minutes, with_offset

WORDS = st.text(st.characters(blacklist_categories=("Cs",)), max_size=8)
NAMES = st.one_of(WORDS, st.sampled_from(["$datetime", "$$date", "$table", "$", "$time"]))
ZONES = st.integers(-1439, 1439).map(lambda minutes: timezone(timedelta(minutes=minutes)))
SINGLE = st.one_of(
    WORDS,
    st.booleans(),
    st.integers(),
    st.floats(allow_nan=False),
    st.dates(),
    st.times(),
    st.datetimes(),
    st.datetimes(timezones=ZONES),
)
TABLES = st.dictionaries(
    NAMES,
    st.recursive(
        SINGLE,
        lambda inner: st.one_of(
            st.lists(inner, max_size=3), st.dictionaries(NAMES, inner, max_size=3)
        ),
        max_leaves=8,
    ),
    max_size=4,
)


def types_of(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: types_of(one) for key, one in value.items()}
    return [types_of(one) for one in value] if isinstance(value, list) else type(value)


@given(TABLES)
def test_every_table_returns_as_it_was(table: dict[str, Any]) -> None:
    again = returned(stored(table))
    assert again == table
    assert types_of(again) == types_of(table)


def test_a_name_that_looks_like_a_mark_is_the_persons_own() -> None:
    table = {"a": {"$datetime": "x"}, "b": {"$$time": {"$date": date(2026, 5, 9)}}}
    assert returned(stored(table)) == table


@pytest.mark.parametrize("value", [b"x", None, 1j, {1: "x"}, "\ud800", {"\udfff": 1}])
def test_what_no_document_can_hold_is_refused_with_its_place(value: Any) -> None:
    with pytest.raises(InputError) as told:
        stored({"run": {"label": value}})
    assert told.value.where.startswith("run.label")


def test_tables_without_end_are_refused() -> None:
    table: dict[str, Any] = {}
    table["run"] = table
    with pytest.raises(InputError):
        stored(table)


def test_the_offset_of_the_clock_is_kept_beside_a_local_time() -> None:
    local = datetime(2026, 5, 9, 10, 20)
    aware = local.replace(tzinfo=UTC)
    found = dict(offsets({"run": {"started": local, "x": aware, "day": date(2026, 5, 9)}}))
    assert list(found) == ["run.started"]
    assert with_offset(local, found["run.started"]) == local.astimezone()
    assert with_offset(aware, "+05:00") == aware
    assert with_offset(local, None) == local


def test_offsets_with_seconds_are_rounded_to_what_toml_can_write() -> None:
    odd = timezone(timedelta(minutes=53, seconds=28))
    found = whole_minutes(datetime(1900, 1, 1, 12, tzinfo=odd))
    assert found.utcoffset() == timedelta(minutes=53)
    assert found == datetime(1900, 1, 1, 12, tzinfo=odd)
    assert time(1) == returned(stored({"t": time(1)}))["t"]
