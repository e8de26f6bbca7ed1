"""A detector's readings tell losses and leak: found again from a known room, doubt where due."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta, timezone
from math import inf
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from ozonewright.bench.detector import read_detector
from ozonewright.bench.room import ask, load_room
from ozonewright.errors import Faults, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.physics.hazards.detector import release_response
from ozonewright.questions.room.detector import DetectorAnswer
from ozonewright.show.room import asked_text

NOON = datetime(2026, 5, 9, 12, 0, tzinfo=timezone(timedelta(hours=2)))
ROOM = {"label": "shed", "volume": "24 m3", "air_changes": "0.50 /h", "temperature": "25 °C"}
PER_H = 1.0 / 3600.0
MG_PER_PPM = 1.9618
"""At 25 °C and 101.325 kPa (niosh_2007: 1.96)."""


def test_response_against_an_integrator() -> None:
    """20 mg/h from 5 to 25 min into 24 m³ at 3 /h, read at 0, 15 and 60 min."""
    times = np.array([0.0, 900.0, 3600.0])
    given = {"begin": 300.0, "end": 1500.0, "volume": 24.0, "loss": 3.0 * PER_H}
    done = solve_ivp(
        lambda t, c: (300.0 <= t < 1500.0) / 24.0 - 3.0 * PER_H * c,
        (0.0, 3600.0), [0.0], t_eval=times, max_step=5.0, rtol=1e-8, atol=1e-12,
    )  # fmt: skip
    assert release_response(time=times, **given) == pytest.approx(done.y[0], rel=5e-3, abs=1e-9)
    steady = release_response(time=1e6, begin=0.0, end=inf, volume=24.0, loss=3.0 * PER_H)
    assert steady == pytest.approx(1.0 / (24.0 * 3.0 * PER_H))


def course(
    minutes: Sequence[float], loss: float, first: float, leak: float, until: float
) -> list[float]:
    """Closed form by hand: leak in mg/h until a minute, loss in 1/h, ppm."""
    end = leak / (24.0 * loss) / MG_PER_PPM
    found = []
    for minute in minutes:
        hours = min(minute, until) / 60.0
        ppm = end + (first - end) * np.exp(-loss * hours)
        found.append(float(ppm * np.exp(-loss * max(minute - until, 0.0) / 60.0)))
    return found


def told(
    tmp_path: Path,
    readings: Sequence[tuple[float, str]],
    marks: Sequence[tuple[float, str]] = (),
    room: dict[str, str] = ROOM,
) -> DetectorAnswer:
    with Notebook.create(tmp_path / "b.sqlite", "bench") as book:
        for minute, what in marks:
            when = NOON + timedelta(minutes=minute)
            book.add("entry", {"entry": {"what": what, "of": "shed", "when": when}})
        for minute, value in readings:
            when = NOON + timedelta(minutes=minute)
            entry = {"what": "detector", "of": "shed", "when": when, "value": value}
            book.add("entry", {"entry": entry})
        return read_detector(book, load_room({"room": room}))


def noisy(values: Sequence[float], scatter: float = 0.002, seed: int = 1) -> list[float]:
    return list(np.array(values) + np.random.default_rng(seed).normal(0.0, scatter, len(values)))


def as_text(minutes: Sequence[float], values: Sequence[float]) -> list[tuple[float, str]]:
    return [(m, f"{max(v, 0.0):.4f} ppm") for m, v in zip(minutes, values, strict=True)]


def test_a_fall_tells_the_loss(tmp_path: Path) -> None:
    """Known truth: 3.3 /h from 0.4 ppm, 0.002 ppm of noise; removal 2.8 /h."""
    minutes = range(0, 31, 2)
    values = noisy(course(minutes, 3.3, 0.4, 0.0, 0.0))
    found = told(tmp_path, as_text(minutes, values), [(-60.0, "discharge on"), (-1.0, "stop")])
    assert found.determined
    assert found.loss is not None
    assert found.removal is not None
    assert abs(found.loss.value / PER_H - 3.3) < 3.0 * found.loss.u / PER_H
    assert found.loss.u / PER_H < 0.15
    assert found.removal.value == pytest.approx(found.loss.value - 0.5 * PER_H)
    assert found.leak is None
    assert found.scatter == pytest.approx(0.002e-6, rel=0.6)


def test_rise_and_fall_tell_loss_and_leak(tmp_path: Path) -> None:
    """Known truth: 100 mg/h for 20 min, then none; 3.3 /h."""
    minutes = range(0, 51, 2)
    values = noisy(course(minutes, 3.3, 0.01, 100.0, 20.0))
    marks = [(0.0, "discharge on"), (20.0, "discharge off")]
    found = told(tmp_path, as_text(minutes, values), marks)
    assert found.loss is not None
    assert found.leak is not None
    assert abs(found.loss.value / PER_H - 3.3) < 3.0 * found.loss.u / PER_H
    leak = found.leak.value * 3.6e9
    assert abs(leak - 100.0) < 3.0 * found.leak.u * 3.6e9
    assert leak == pytest.approx(100.0, rel=0.05)
    assert asked_text(None, None, found).startswith("The room loses its ozone at 3.")


@pytest.mark.parametrize("seed", range(8))
def test_the_interval_holds_the_truth(tmp_path: Path, seed: int) -> None:
    minutes = range(0, 31, 2)
    values = noisy(course(minutes, 3.3, 0.4, 0.0, 0.0), 0.004, seed)
    found = told(tmp_path, as_text(minutes, values), [(-60.0, "discharge on"), (-1.0, "stop")])
    assert found.loss is not None
    assert abs(found.loss.value / PER_H - 3.3) < 3.5 * found.loss.u / PER_H


def test_flat_readings_determine_nothing(tmp_path: Path) -> None:
    """In the steady state loss and leak can't be told apart."""
    found = told(tmp_path, as_text(range(0, 20, 2), noisy([0.2] * 10)))
    assert not found.determined
    assert found.loss is None
    assert found.leak is None
    assert {note.code for note in found.notes} >= {
        "room-detector-undetermined", "room-detector-unmarked",
    }  # fmt: skip
    assert "do not determine" in asked_text(None, None, found)


def test_readings_by_mass_are_the_same(tmp_path: Path) -> None:
    minutes = range(0, 31, 2)
    values = course(minutes, 3.3, 0.4, 0.0, 0.0)
    text = [(m, f"{v * MG_PER_PPM:.5f} mg/m3") for m, v in zip(minutes, values, strict=True)]
    found = told(tmp_path, text, [(-60.0, "discharge on"), (-1.0, "stop")])
    assert found.loss is not None
    assert found.loss.value / PER_H == pytest.approx(3.3, rel=1e-3)


def test_unknown_air_changes_leave_removal_open(tmp_path: Path) -> None:
    minutes = range(0, 31, 2)
    values = course(minutes, 3.3, 0.4, 0.0, 0.0)
    room = {name: text for name, text in ROOM.items() if name != "air_changes"}
    marks = [(-60.0, "discharge on"), (-1.0, "stop")]
    found = told(tmp_path, as_text(minutes, values), marks, room)
    assert found.determined
    assert found.removal is None
    assert found.unknowns == ("room.air_changes",)


def test_readings_that_fall_to_zero_give_no_negative_leak(tmp_path: Path) -> None:
    """A release still marked as on while the readings fall: the leak is nought, not negative."""
    minutes = range(0, 31, 2)
    values = course(minutes, 3.3, 0.4, 0.0, 0.0)
    found = told(tmp_path, as_text(minutes, values), [(-10.0, "discharge on")])
    assert found.leak is None or found.leak.value >= 0.0


def test_too_few_readings_say_how_many(tmp_path: Path) -> None:
    with pytest.raises(MissingValue, match="at least 5"):
        told(tmp_path, as_text([0.0, 2.0], [0.2, 0.1]))


def test_no_reading_and_no_label_are_told(tmp_path: Path) -> None:
    with pytest.raises(MissingValue, match="no detector reading"):
        told(tmp_path, [])
    with (
        Notebook.open(tmp_path / "b.sqlite") as book,
        pytest.raises(MissingValue, match="without a label"),
    ):
        read_detector(book, load_room({"room": {"volume": "24 m3"}}))


def test_a_reading_needs_its_unit(tmp_path: Path) -> None:
    with pytest.raises(Faults):
        told(tmp_path, [(0.0, "0.2")])


def test_the_question_takes_the_notebook(tmp_path: Path) -> None:
    minutes = range(0, 31, 2)
    values = course(minutes, 3.3, 0.4, 0.0, 0.0)
    told(tmp_path, as_text(minutes, values), [(-60.0, "discharge on"), (-1.0, "stop")])
    found = ask({"room": ROOM}, {}, book=tmp_path / "b.sqlite")
    assert found.ozone is None
    assert found.detector is not None
    assert found.detector.readings == 16
