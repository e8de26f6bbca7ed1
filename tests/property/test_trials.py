"""Damaged documents of every kind end in an answer or in an error that says what to do."""

from __future__ import annotations

import pytest

from ozonewright.bench.rig import rig_of
from ozonewright.bench.room import load_room
from ozonewright.errors import AppError, Faults, MissingValue, OutOfBounds
from property import trials
from property.trials import KINDS, damaged, end_of
from unit.gate_world import part, world

COUNT = {"runs of two settings": 1, "runs and a label": 1, "runs of a generator": 2,
         "runs of one setting": 2, "rig and reaction": 5, "rig, room and reaction": 8,
         "run": 10}  # fmt: skip
"""Of a kind, where it is not 25; runs by themselves have a test of their own."""


@pytest.mark.parametrize("kind", KINDS)
def test_whole_documents_are_answered(kind: str) -> None:
    for document in KINDS[kind].whole():
        assert end_of(kind, document) == "answer"


@pytest.mark.parametrize("kind", KINDS)
def test_damaged_documents_end_in_words(kind: str) -> None:
    for seed in range(COUNT.get(kind, 25)):
        assert end_of(kind, damaged(kind, seed)) in ("answer", "error"), seed


def test_the_yardstick_sees_an_error_without_a_mend(monkeypatch: pytest.MonkeyPatch) -> None:
    def bare(document: object) -> list[str]:
        error = AppError("it is wrong", fix="Mend it.")
        error.fix = ""
        raise error

    monkeypatch.setitem(trials.KINDS, "room", trials.Kind(list, bare, 1))
    assert end_of("room", {}) == "no mend"
    monkeypatch.setitem(trials.KINDS, "room", trials.Kind(list, lambda _: ["{}", " "], 1))
    assert end_of("room", {}) == "no words"


def test_an_empty_list_of_documents_is_told() -> None:
    with pytest.raises(MissingValue, match="the list holds no document"):
        load_room({"room": []})


def test_a_name_that_nobody_can_see_is_none() -> None:
    table = world()["rig"]
    part({"rig": table}, "tail")["name"] = "\n"
    assert "tail bottle" in [one.name for one in rig_of(table).parts]


@pytest.mark.parametrize(
    ("field", "text", "limit"),
    [
        ("pressure", "101.0e-3 kPa", "30 kPa"),
        ("pressure", "29 kPa", "30 kPa"),
        ("pressure", "1013 kPa", "120 kPa"),
        ("temperature", "9000 °C", "60 °C"),
        ("temperature", "-60 °C", "-50 °C"),
        ("dew_point", "400 °C", "60 °C"),
    ],
)
def test_air_that_no_room_holds_is_refused(field: str, text: str, limit: str) -> None:
    table = world()["rig"]
    table["rig"]["ambient"][field] = text
    with pytest.raises(Faults) as caught:
        rig_of(table)
    (fault,) = caught.value.faults
    assert isinstance(fault, OutOfBounds)
    assert limit in fault.what


def test_a_loss_that_no_gauge_tells_is_refused() -> None:
    table = world()["rig"]
    valve = {"name": "needle", "kind": "needle valve", "passes": "2 L/min", "at": "6.5e-38 kPa"}
    table["part"].insert(1, valve)
    with pytest.raises(Faults) as caught:
        rig_of(table)
    assert [fault.where for fault in caught.value.faults] == ["part[2].at"]
