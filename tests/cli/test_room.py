"""`ozonewright room` as a person types it."""

from __future__ import annotations

import json
from math import exp
from pathlib import Path

import pytest

from cli.typed import run

TEXT = """
[room]
label = "workshop"
volume = "24 m3"
air_changes = "0.5 /h"
removal = "2.8 /h ± 1.3 /h"
temperature = "22 °C"
limit = "0.1 ppm"
"""


@pytest.fixture
def room(tmp_path: Path) -> str:
    path = tmp_path / "room.toml"
    path.write_text(TEXT, encoding="utf-8")
    return str(path)


def test_the_answer_comes_first(room: str) -> None:
    done = run("room", room, "--release", "100 mg/h")
    assert done.returncode == 0
    assert done.stdout.startswith("0.64 ppm of ozone in the end")


def test_json_has_the_promised_keys(room: str) -> None:
    found = json.loads(run("room", room, "--release", "100 mg/h", "--json").stdout)
    wanted = (
        "steady_ppm steady_mg_per_m3 minutes_to_limit air_changes_needed_per_h re_entry_min notes"
    )
    assert set(wanted.split()) <= found.keys()
    never = json.loads(run("room", room, "--release", "1 mg/h", "--json").stdout)
    assert never["minutes_to_limit"] is None


def test_faults_are_told_and_exit_is_two(room: str, tmp_path: Path) -> None:
    done = run("room", room)
    assert done.returncode == 2
    assert "nothing says how much gets out" in done.stderr
    assert run("room", str(tmp_path / "none.toml"), "--release", "1 mg/h").returncode == 2


def test_a_notebook_keeps_a_room(room: str, tmp_path: Path) -> None:
    book = str(tmp_path / "b.sqlite")
    assert run("notebook", "new", book).returncode == 0
    assert run("add", room, "--notebook", book).returncode == 0
    assert "workshop" in run("list", "--notebook", book).stdout


def test_oxygen_alone_and_with_ozone(room: str) -> None:
    done = run("room", room, "--oxygen", "1 L/min")
    assert done.stdout.startswith("21.3 vol% of oxygen in the end")
    found = json.loads(run("room", room, "--oxygen", "1 L/min", "--json").stdout)
    assert found["minutes_to_limit"] is None
    both = ("--oxygen", "1 L/min", "--release", "1 mg/h", "--json")
    assert len(json.loads(run("room", room, *both).stdout)["answers"]) == 2


def test_detector_readings_of_a_notebook(room: str, tmp_path: Path) -> None:
    """A fall from 0.4 ppm at 3.3 /h, by hand: 0.4 exp(-3.3 t)."""
    book = str(tmp_path / "b.sqlite")
    assert run("notebook", "new", book).returncode == 0
    entries = "".join(
        f'[[entry]]\nwhat = "detector"\nof = "workshop"\nwhen = 2026-05-09T12:{minute:02d}:00\n'
        f'value = "{0.4 * exp(-3.3 * minute / 60):.4f} ppm"\n'
        for minute in range(0, 31, 3)
    )
    ended = '[[entry]]\nwhat = "stop"\nof = "workshop"\nwhen = 2026-05-09T11:59:00\n'
    (tmp_path / "e.toml").write_text(ended + entries, encoding="utf-8")
    assert run("add", str(tmp_path / "e.toml"), "--notebook", book).returncode == 0
    found = json.loads(run("room", room, "--notebook", book, "--json").stdout)
    assert found["determined"]
    assert found["loss_per_h"] == pytest.approx(3.3, rel=0.01)
    assert found["removal_per_h"] == pytest.approx(2.8, rel=0.01)
    both = run("room", room, "--notebook", book, "--release", "100 mg/h")
    assert "The room loses its ozone at 3.3" in both.stdout
    assert "0.64 ppm of ozone in the end" in both.stdout


def test_the_limits_are_listed() -> None:
    done = run("room", "--limits")
    assert done.returncode == 0
    assert "United Kingdom" in done.stdout
    assert run("room").returncode == 2
