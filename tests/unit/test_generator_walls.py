"""Tube temperatures that runs do not state, and a place under a timer's pattern."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from math import exp
from pathlib import Path

import pytest

from ozonewright.bench.generator import question_of_files, question_of_notebook
from ozonewright.bench.log import Press, press
from ozonewright.bench.notebook import add_table
from ozonewright.documents.load import read_text
from ozonewright.errors import Faults
from ozonewright.notebook import Notebook
from ozonewright.questions.generator import Question, generator
from ozonewright.records.event import Moment
from ozonewright.show.generator import generator_text
from ozonewright.show.words import sentence
from ozonewright.uncertain import Estimate
from unit.test_duty import log
from unit.test_duty_output import written

NOON = datetime(2026, 5, 9, 12).astimezone()


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Notebook]:
    with Notebook.create(tmp_path / "b.sqlite", "bench") as notebook:
        yield notebook


def walls(question: Question) -> dict[str, float | None]:
    return {
        run.label: None if run.point.wall is None else run.point.wall - 273.15
        for run in question.runs
    }


def test_readings_logged_of_a_run_are_its_tube_temperature(book: Notebook) -> None:
    add_table(book, read_text(written("a", "0.5 g/h") + written("b", "0.5 g/h", "61 °C")))
    later = Moment(NOON + timedelta(hours=1))
    for label, degrees in (("a", "50.0 °C"), ("a", "54.0 °C"), ("b", "20 °C")):
        press(book, Press("tube temperature", label, value=degrees), later, "test")
    question = question_of_notebook(book, None, {})
    # the mean of both readings; what a run states itself stands
    assert walls(question) == pytest.approx({"a": 52.0, "b": 61.0})
    assert question.walls_from == {"a": "readings"}


def test_a_log_by_the_clock_is_that_of_the_runs_it_covers(tmp_path: Path) -> None:
    text = written("inside", "0.5 g/h") + written("after", "0.5 g/h")
    text = text.replace('on_time = "4 min"', 'on_time = "4 min"\nstarted = 2026-05-09T12:03:00', 1)
    file = tmp_path / "runs.toml"
    file.write_text(text, encoding="utf-8")
    # 40 °C and 2 K a minute: from 12:03 to 12:07 it is 46 to 54 °C, 50 as a mean
    lines = [f"2026-05-09T12:{m:02d}:00,{40 + 2 * m}" for m in range(20)]
    texts = {"log": "time,temperature (°C)\n" + "\n".join(lines)}
    question = question_of_files([str(file)], texts)
    assert question.walls_from["inside"] == "clock"
    assert walls(question)["inside"] == pytest.approx(50.0)


def test_a_log_of_its_own_minutes_foretells_cold_and_warm_runs(tmp_path: Path) -> None:
    file = tmp_path / "runs.toml"
    starts = ("cold", "warm", "diverted")
    file.write_text(
        "".join(written(start, "0.5 g/h", start=start) for start in starts), encoding="utf-8"
    )
    question = question_of_files([str(file)], {"log": log((60.0, 4.6), noise=0.01)})
    found = walls(question)
    # the room is 22 °C as the gas: 60 K (1 - 4.6/4 (1 - exp(-4/4.6))) over it, by hand 39.92 °C
    cold = 22.0 + 60.0 * (1.0 - 4.6 / 4.0 * (1.0 - exp(-4.0 / 4.6)))
    assert found["cold"] == pytest.approx(cold, abs=0.1)
    assert found["warm"] == pytest.approx(82.0, abs=0.1)
    assert found["diverted"] == pytest.approx(82.0, abs=0.1)
    assert not any(run.cold for run in question.runs)


AT = "on=6 min, off=9 min, time constant=4.6 min, rise=60 K"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "run.toml"
    path.write_text(written("only", "0.5 g/h ± 1 %", "60 °C"), encoding="utf-8")
    return path


def test_a_place_under_a_pattern(file: Path) -> None:
    question = question_of_files([str(file)], {"at": AT})
    # by hand: 0.50118 of 60 K over the 22 °C of the run's gas; 0.1071 and 0.7577 at its ends
    assert question.point.wall == pytest.approx(273.15 + 22.0 + 30.07, abs=0.01)
    pattern = question.pattern
    assert pattern is not None
    assert [one - 295.15 for one in (pattern.trough, pattern.peak)] == pytest.approx(
        [6.43, 45.46], abs=0.01
    )
    found = generator(question)
    assert found.on_share == pytest.approx(0.4)
    assert isinstance(found.rate, Estimate)
    assert isinstance(found.ozone_rate, Estimate)
    assert found.ozone_rate.value == pytest.approx(0.4 * found.rate.value)
    text = " ".join(generator_text(found).split())
    assert "per clock hour" in text
    assert "never the safeguard" in text
    assert sentence(found.notes[-1])


def test_a_pattern_with_a_log(file: Path) -> None:
    texts = {"at": "on=6 min, off=9 min, ambient=30 °C", "log": log((60.0, 4.6), noise=0.01)}
    question = question_of_files([str(file)], texts)
    assert question.point.wall == pytest.approx(273.15 + 30.0 + 30.07, abs=0.1)


@pytest.mark.parametrize(
    ("at", "text", "places"),
    [
        ("on=6 min", "", {"at.off", "at.time constant", "at.rise"}),
        (AT + ", wall=50 °C", "", {"at.wall"}),
        (AT, log((60.0, 4.6)), {"at.time constant", "at.rise"}),
        ("on=, off=9 min", "", {"at.on"}),
        ("on=6, off=9 min", "", {"at.on"}),
        ("flow=1 L/min", "time (min), temperature (°C)\n2,20\n1,21", {"log.line 3"}),
        ("flow=1 L/min", "\n", {"log"}),
        ("flow=1 L/min", "time (min), temperature (°C)\n0,20\n1,21\n2,22", {"log"}),
    ],
)
def test_faults_are_told_by_their_place(file: Path, at: str, text: str, places: set[str]) -> None:
    with pytest.raises(Faults) as caught:
        question_of_files([str(file)], {"at": at, "log": text})
    assert {fault.where for fault in caught.value} == places


def test_a_pattern_needs_the_air_around_the_tube(tmp_path: Path) -> None:
    text = written("only", "0.5 g/h", "60 °C").replace('temperature = "22 °C"\n', "")
    file = tmp_path / "run.toml"
    file.write_text(text.replace('"0.8 L/min"', '"0.74 NL/min"'), encoding="utf-8")
    with pytest.raises(Faults) as caught:
        question_of_files([str(file)], {"at": AT})
    assert {fault.where for fault in caught.value} == {"at.ambient"}
