"""Tables and points in, CSV out. Numbers are invented; what is checked is what was typed."""

from __future__ import annotations

import csv
import io
from datetime import datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ozonewright.documents.load import runs_of
from ozonewright.documents.table import as_one, points, read_csv, write_csv
from ozonewright.errors import AppError, InputError

TWO = [
    {"run": {"on_time": "2 min", "rate": "0.92 g/h"}},
    {"run": {"on_time": "4.0 min", "rate": "0.71 g/h"}},
]


@pytest.mark.parametrize(
    "text",
    [
        "on time / min, rate / g/h\n2,0.92\n4.0,0.71\n",
        "on_time_min,rate_g_per_h\n2,0.92\n4.0,0.71",
        "Time (min)\tOutput [g/h]\n2\t0.92\n4.0\t0.71\n",
        "t / min;rate / g/h\r\n2;0.92\r\n\r\n4.0;0.71\r\n",
        "\ufeff# pasted\non-time,rate\n2 min,0.92 g/h\n4.0 min,0.71 g/h\n",
        "2 min\t0.92 g/h\n4.0 min\t0.71 g/h",
    ],
)
def test_the_same_two_runs_in_many_hands(text: str) -> None:
    assert read_csv(text) == TWO


def test_digits_commas_and_uncertainty_stay_as_typed() -> None:
    text = (
        "on time / s;u on time / s;rate / g/h;label;started\n240,0;1,5;0,920;C1;2026-05-09 10:20\n"
    )
    (run,) = read_csv(text)
    assert run["run"] == {
        "on_time": "240,0 s ± 1,5 s",
        "rate": "0,920 g/h",
        "label": "C1",
        "started": datetime(2026, 5, 9, 10, 20),
    }
    ((_, document),) = runs_of(run)
    assert document.run.on_time is not None
    assert (document.run.on_time.value, document.run.on_time.u) == (240.0, 1.5)


def test_titres_of_a_train_and_its_titrant() -> None:
    text = "on time / s,titre 1 / mL,titre 2 / mL,blank / mL,titrant / mol/L,flow / L/min\n" + (
        "240,28.46,1.02,0.18,0.0510,0.80\n"
    )
    assert read_csv(text) == [
        {
            "run": {"on_time": "240 s"},
            "titration": {
                "titres": ["28.46 mL", "1.02 mL"],
                "blank": "0.18 mL",
                "titrant": {"concentration": "0.0510 mol/L"},
            },
            "gas": {"flow": "0.80 L/min"},
        }
    ]


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("", ""),
        ("on time / min,rate / g/h\n", ""),
        ("time,rate\n2,3\n", "line 1.time"),
        ("time / min,rate / L\n2,3\n", "header"),
        ("time / min,colour\n2,blue\n", "header"),
        ("time / min,setting\n2,S\n", "header"),
        ("time / min,t / s,rate / g/h\n2,3,4\n", "header"),
        ("time / min,rate / g/h\n2,0,92\n", "line 1"),
        ("time / min,rate / g/h,\n2,0.92,x\n", "line 1"),
        ("started,time / min,rate / g/h\nyesterday,2,0.92\n", "line 1.started"),
        ("2 min\n", "header"),
        ("1,2\n3,4\n", "header"),
        ('time / min,rate / g/h\n2,"' + "9" * 200_000 + "\n", ""),
    ],
)
def test_a_table_that_is_none_says_where(text: str, where: str) -> None:
    with pytest.raises(InputError) as told:
        read_csv(text)
    faults = getattr(told.value, "faults", (told.value,))
    assert any(fault.where == where for fault in faults), [fault.where for fault in faults]
    assert all(fault.fix for fault in faults)


def test_every_faulty_line_is_named_at_once() -> None:
    with pytest.raises(InputError) as told:
        read_csv("time / min,rate / g/h\nx,1\n2,1\n3,y\n")
    assert [fault.where for fault in told.value] == ["line 1.time / min", "line 3.rate / g/h"]  # type: ignore[attr-defined]


def test_columns_that_follow_from_others_are_passed_over() -> None:
    text = "time / min,rate / g/h,concentration / g/Nm³,u concentration / g/Nm³\n2,0.92,12,0.1\n"
    assert read_csv(text) == TWO[:1]


def test_points() -> None:
    assert points(["2 min: 0.92 g/h", "4.0 min = 0.71 g/h"]) == TWO
    assert points(["4 min 30 s: 33 mg"]) == [
        {"run": {"on_time": "4 min 30 s", "collected": "33 mg"}}
    ]
    assert points(["4 min: 28.46 mL"])[0]["titration"] == {"titres": ["28.46 mL"]}
    with pytest.raises(InputError) as told:
        points(["2 min 0.92 g/h", "2: 3 g/h", "2 min: 3"])
    assert [fault.where for fault in told.value] == ["point 1", "point 2", "point 3"]  # type: ignore[attr-defined]


def test_several_documents_as_one_name_the_line_of_a_fault() -> None:
    table = as_one([*TWO, {"run": {"on_time": "0 s", "rate": "1 g/h"}, "gas": {"flow": "1 L/min"}}])
    assert table["run"][2]["gas"] == {"flow": "1 L/min"}
    with pytest.raises(AppError) as told:
        runs_of(table)
    assert "run[3]" in str(told.value)


CELL = st.text(st.characters(blacklist_categories=("Cs", "Cc")), max_size=12)


@given(st.lists(st.tuples(CELL, CELL), max_size=5))
def test_csv_out_is_read_by_any_reader_and_runs_no_formula(rows: list[tuple[str, str]]) -> None:
    text = write_csv(["label", "remark / x"], rows)
    found: list[list[Any]] = list(csv.reader(io.StringIO(text)))
    assert found[0] == ["label", "remark / x"]
    for row, wanted in zip(found[1:], rows, strict=True):
        for cell, typed in zip(row, wanted, strict=True):
            assert cell in (typed, f"'{typed}")
            assert not cell.startswith(("=", "@"))
