"""Forms over documents: nothing typed is lost, nothing untouched is changed."""

from __future__ import annotations

from copy import deepcopy
from datetime import datetime

import pytest

from ozonewright.errors import Faults, InputError
from ozonewright.web.form import differences, fields_of, filled, leaves, shown, typed, with_faults
from ozonewright.web.pages.new import next_label
from ozonewright.web.run_form import empty_form, form_of, run_groups, table_of
from web.in_process import RUN


def test_a_form_left_as_it_is_returns_the_same_table() -> None:
    table = deepcopy(RUN)
    table["run"]["started"] = datetime.fromisoformat("2026-05-09T10:20:00.5+02:00")
    table["titration"]["titres"] = [["28.46 mL", "28.50 mL"], "1.02 mL"]
    table["titration"]["titrant"] |= {"temperature": "21 °C"}
    assert table_of(form_of(table), table) == table


def test_every_field_of_the_form_reaches_its_place() -> None:
    for one in fields_of(run_groups(3)):
        word = one.choices[-1][0] if one.choices else "x"
        text = {"date": "2026-05-09", "moment": "2026-05-09 10:20"}.get(one.kind, word)
        table = filled({}, [one], {one.place: text})
        assert shown(table, [one]) == {one.place: text}
        assert [place for place, _ in leaves(table) if place == one.place or "[" in one.place]


def test_emptying_a_field_leaves_it_out() -> None:
    fields = fields_of(run_groups())
    values = shown(RUN, fields) | {"gas.flow": "", "titration.titres[2]": " "}
    table = filled(RUN, fields, values)
    assert "flow" not in table["gas"]
    assert table["titration"]["titres"] == ["28.46 mL"]
    assert RUN["gas"]["flow"]


def test_a_named_feed_replaces_its_parts_and_both_are_refused() -> None:
    form = form_of(RUN)
    named = typed(form.groups, dict(form.values) | {"gas.feed": "dry air"})
    assert table_of(named, RUN)["gas"]["feed"] == "dry air"
    parts = typed(
        form.groups, dict(form.values) | {"gas.feed": "dry air", "gas.feed.oxygen": "21 vol%"}
    )
    with pytest.raises(Faults, match="by name and by its parts"):
        table_of(parts, RUN)


@pytest.mark.parametrize(
    ("place", "text"),
    [
        ("run.started", "yesterday"),
        ("titration.titrant.standardised", "9 May"),
        ("run.remark", "bell \x07"),
        ("run.remark", "x" * 5000),
    ],
)
def test_what_no_field_can_hold_is_refused_at_its_place(place: str, text: str) -> None:
    form = typed(run_groups(), {place: text})
    with pytest.raises(Faults) as caught:
        table_of(form)
    assert [fault.where for fault in caught.value] == [place]


@pytest.mark.parametrize(
    ("where", "place"),
    [
        ("titration.titres", "titration.titres[1]"),
        ("titration.titres[2][1]", "titration.titres[2]"),
        ("gas.feed.oxygen", "gas.feed.oxygen"),
        ("gas.feed.helium", "gas.feed"),
        ("run.on_time", "run.on_time"),
    ],
)
def test_a_fault_stands_at_the_nearest_field(where: str, place: str) -> None:
    form = with_faults(empty_form(), InputError("odd", where=where, fix="Mend it."))
    assert [one.place for one in form.wrong] == [place]


def test_a_fault_of_no_field_is_told_all_the_same() -> None:
    form = with_faults(empty_form(), InputError("odd", where="elsewhere", fix="Mend it."))
    assert [str(one) for one in form.elsewhere] == ["elsewhere: odd. Mend it."]


def test_differences_are_told_by_place() -> None:
    after = deepcopy(RUN)
    after["titration"]["titres"][0] = "28.64 mL"
    del after["electrical"]
    assert list(differences(RUN, after)) == [
        ("electrical.power", "41 W", ""),
        ("titration.titres[1]", "28.46 mL", "28.64 mL"),
    ]


@pytest.mark.parametrize(
    ("label", "known", "following"),
    [
        ("C4", set(), "C5"),
        ("C4", {"C5", "C6"}, "C7"),
        ("test", set(), "test 2"),
        ("9", set(), "10"),
    ],
)
def test_the_next_label(label: str, known: set[str], following: str) -> None:
    assert next_label(label, known) == following
