"""The duty question: figures by hand, what is told, what is refused."""

from __future__ import annotations

import numpy as np
import pytest

from ozonewright.bench.duty import timer, warming
from ozonewright.errors import Faults, Inconsistent
from ozonewright.show.duty import duty_text
from ozonewright.show.duty_figure import warm_up_figure
from ozonewright.show.sheet.duty import duty_figures
from ozonewright.show.words import sentence
from ozonewright.uncertain import Estimate

STORY = {"on": "6 min", "off": "9 min", "time_constant": "4.6 min", "output": "0.62 g/h"}
HEAT = {"rise": "60 K", "ambient": "25 °C", "limit": "70 °C"}


def value(one: object) -> float:
    assert isinstance(one, Estimate)
    return one.value


def test_the_story_by_hand() -> None:
    found = timer(STORY | HEAT)
    assert value(found.peak_share) == pytest.approx(0.7577, abs=1e-4)
    # 25 °C + 0.7577 × 60 K
    assert value(found.peak_temperature) - 273.15 == pytest.approx(70.46, abs=0.01)
    # 0.62 g/h × 6 ÷ 15
    assert value(found.ozone_rate) * 3600e6 == pytest.approx(248.0)
    assert found.longest_on == pytest.approx(60 * 5.862, abs=0.1)
    assert found.first_on == pytest.approx(60 * 6.377, abs=0.1)
    assert found.safe_on is not None and found.safe_on < found.longest_on  # noqa: PT018
    assert {note.code for note in found.notes} >= {"duty-above-limit", "duty-timer"}


def test_moles_and_grams_agree() -> None:
    # 12.918 mmol/h × 47.997 g/mol = 0.62 g/h
    found = timer(STORY | {"output": "12.918 mmol/h"})
    assert value(found.ozone_rate) * 3600e6 == pytest.approx(248.0, abs=0.1)


def test_every_offered_pattern_stays_below_the_limit() -> None:
    found = timer(STORY | HEAT | {"rise": "60 K ± 3 K"})
    assert found.patterns
    assert all(row.peak_temperature < found.limit for row in found.patterns)
    assert [row.best for row in found.patterns].count(True) == 1


def test_what_never_reaches_the_limit_needs_no_pattern() -> None:
    found = timer(STORY | HEAT | {"rise": "30 K"})
    assert found.limit_reached is False
    assert found.longest_on is None
    assert found.patterns == ()
    assert "duty-never-reached" in {note.code for note in found.notes}


def test_a_peak_that_may_pass_is_told() -> None:
    found = timer(STORY | HEAT | {"rise": "57 K ± 3 K"})
    assert "duty-near-limit" in {note.code for note in found.notes}


def test_a_pattern_below_the_safe_time_is_not_shortened() -> None:
    found = timer(STORY | HEAT | {"on": "3 min", "time_constant": "4.6 min ± 0.2 min"})
    assert found.next == ()


@pytest.mark.parametrize(
    ("gas", "code"),
    [("stops", "duty-suck-back"), ("", "duty-gas-unknown"), (None, "duty-gas-unknown")],
)
def test_what_the_gas_does_meanwhile(gas: str | None, code: str) -> None:
    found = timer(STORY | {"gas": gas})
    assert code in {note.code for note in found.notes}


def test_gas_that_runs_on_is_counted() -> None:
    found = timer(STORY | {"gas": "runs on", "flow": "0.74 NL/min"})
    # 0.74 NL/min × 60 × 9 ÷ 15 = 26.64 NL an hour; 22.41397 L/mol
    assert value(found.gas_wasted) * 3600 * 22.41397 == pytest.approx(26.64, abs=0.01)
    assert "flow" in timer(STORY | {"gas": "runs on"}).unknowns


def test_without_heat_nothing_is_promised() -> None:
    found = timer(STORY)
    assert found.longest_on is None
    assert found.limit_reached is None
    assert {"rise", "ambient", "limit"} <= set(found.unknowns)
    assert found.next[0].code == "duty-measure-rise"


def test_every_sentence_can_be_said() -> None:
    for more in (
        {},
        HEAT,
        HEAT | {"rise": "30 K"},
        {"gas": "stops"},
        HEAT | {"rise": "57 K ± 3 K"},
    ):
        found = timer(STORY | more)
        for note in (*found.notes, *found.next):
            assert sentence(note)


@pytest.mark.parametrize(
    ("wrong", "places"),
    [
        ({"on": "0 min"}, {"on"}),
        ({"on": None, "off": None, "time_constant": None}, {"on", "off", "time_constant"}),
        ({"rise": "60"}, {"rise"}),
        ({"gas": "maybe"}, {"gas"}),
    ],
)
def test_faults_are_told_by_their_place(wrong: dict[str, str | None], places: set[str]) -> None:
    with pytest.raises(Faults) as caught:
        timer(STORY | wrong)
    assert {fault.where for fault in caught.value} == places


def test_a_limit_below_the_ambient_is_refused() -> None:
    with pytest.raises(Inconsistent, match="not above the ambient"):
        timer(STORY | HEAT | {"limit": "20 °C"})


def log(*bodies: tuple[float, float], minutes: int = 60, noise: float = 0.1) -> str:
    """A log of known truth: rise and time constant of each body, on for half of it."""
    rng = np.random.default_rng(1)
    times = np.arange(minutes + 1.0)
    half = minutes / 2.0
    warm = sum(
        rise
        * (1.0 - np.exp(-np.minimum(times, half) / tau))
        * np.exp(-np.maximum(times - half, 0.0) / tau)
        for rise, tau in bodies
    )
    read = 23.0 + warm + rng.normal(0.0, noise, len(times))
    rows = (
        f"{t:g},{value:.2f},{'on' if t < half else 'off'}"
        for t, value in zip(times, read, strict=True)
    )
    return "time (min), temperature (°C), discharge\n" + "\n".join(rows)


OF_LOG = {"on": "6 min", "off": "9 min", "output": "0.62 g/h", "limit": "70 °C"}


def test_a_log_in_place_of_what_is_typed() -> None:
    found = timer(OF_LOG | {"log": log((60.0, 4.6))})
    assert len(found.bodies) == 1
    assert value(found.time_constant) == pytest.approx(4.6 * 60.0, rel=0.02)
    # 23 °C + 0.7577 × 60 K, by hand
    assert value(found.peak_temperature) - 273.15 == pytest.approx(23.0 + 45.46, abs=0.3)


def test_the_readings_stand_beside_the_curve() -> None:
    found = timer(OF_LOG | {"log": log((60.0, 4.6))})
    assert len(found.log) == found.readings == 61
    # the noise of the log is 0.1 K
    assert max(abs(row.read - row.fitted) for row in found.log) < 0.4
    assert [row.on for row in found.log].count(True) == 30
    drawn = warm_up_figure(found)
    assert drawn is not None
    assert drawn.count("<circle") == 61
    names = [figure.name for figure in duty_figures(found)]
    assert "timer, warm-up" in names
    assert warm_up_figure(timer(STORY)) is None
    frosty = "time (min),temperature (°C)\n" + "\n".join(
        f"{m},{-20 + 10 * (1 - np.exp(-m / 4.6)):.2f}" for m in range(20)
    )
    assert warm_up_figure(timer(OF_LOG | {"log": frosty})) is None


def test_a_box_around_the_tube_is_told_apart() -> None:
    found = timer(OF_LOG | {"log": log((45.0, 4.2), (18.0, 22.0))})
    assert len(found.bodies) == 2
    assert [value(row.time_constant) / 60.0 for row in found.bodies] == pytest.approx(
        [4.2, 22.0], rel=0.1
    )
    assert found.time_constant is None
    assert "body 2" in duty_text(found)
    times, shares = warming(found)
    assert len(times) == len(shares)
    assert max(shares) < 1.0


def test_another_ambient_than_that_of_the_log() -> None:
    here, there = (
        value(timer(OF_LOG | {"log": log((60.0, 4.6))} | more).peak_temperature)
        for more in ({}, {"ambient": "33 °C"})
    )
    assert there - here == pytest.approx(10.0, abs=0.2)


def test_what_a_log_leaves_open_is_told() -> None:
    short = timer(OF_LOG | {"log": log((60.0, 25.0), minutes=30)})
    assert "duty-log-short" in {note.code for note in short.notes}
    lines = log((60.0, 4.6)).splitlines()
    gap = timer(OF_LOG | {"log": "\n".join(lines[:8] + lines[20:])})
    assert "duty-gap" in {note.code for note in gap.notes}
    bare = "\n".join(line.rpartition(",")[0] for line in lines[:30])
    told = timer(OF_LOG | {"log": bare})
    assert "duty-on-throughout" in {note.code for note in told.notes}
    for found in (short, gap, told):
        for note in found.notes:
            assert sentence(note)


def test_times_of_the_clock_and_units_in_the_cells() -> None:
    lines = [
        "time,temperature",
        *(f"2026-05-09T10:{m:02d}:00,{23 + 60 * (1 - np.exp(-m / 4.6)):.2f} °C" for m in range(30)),
    ]
    found = timer(OF_LOG | {"log": "\n".join(lines)})
    assert value(found.time_constant) == pytest.approx(4.6 * 60.0, rel=0.01)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("\n", "log"),
        ("time (min), warmth\n0, 20", "log"),
        ("time (min), temperature (°C)", "log"),
        ("time (min), temperature (°C)\n0,20\n0,21", "log.line 3"),
        ("time (min), temperature (°C), discharge\n0,20,perhaps", "log.line 2.discharge"),
        ("time (min), temperature (°C)\n0,20\n1,21\n2,22", "log"),
        ("x" * 2_000_001, "log"),
    ],
)
def test_a_faulty_log_is_told_by_its_line(text: str, place: str) -> None:
    with pytest.raises(Faults) as caught:
        timer(OF_LOG | {"log": text})
    assert {fault.where for fault in caught.value} == {place}


def test_a_log_and_what_it_tells_is_one_too_many() -> None:
    with pytest.raises(Faults) as caught:
        timer(OF_LOG | {"log": log((60.0, 4.6)), "rise": "60 K"})
    assert {fault.where for fault in caught.value} == {"rise"}
