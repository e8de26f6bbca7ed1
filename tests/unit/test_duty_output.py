"""Output under a timer that falls as the tube warms: typed, or from the generator of a notebook."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from math import exp
from pathlib import Path

import pytest

from ozonewright.bench.duty import output_course, timer
from ozonewright.bench.log import Press, press
from ozonewright.bench.notebook import add_table
from ozonewright.documents.load import read_text
from ozonewright.errors import Faults, Inconsistent, NotFound
from ozonewright.notebook import Notebook
from ozonewright.records.event import Moment
from ozonewright.show.duty import duty_text
from ozonewright.show.duty_figure import output_figure
from ozonewright.show.words import sentence
from ozonewright.uncertain import Estimate
from unit.test_duty import HEAT, STORY, log, value

FALLS = {"temperature_coefficient": "-0.4 %/K ± 0.1", "output_at": "warm"}
PER_HOUR = 3600e6
"""kg/s to mg/h."""


def test_by_hand_with_a_coefficient() -> None:
    found = timer(STORY | HEAT | FALLS)
    # trough 0.1071, mean over the on-time 1 - 0.8929 · 0.55865 = 0.50118 of 60 K; the output is
    # that of the warm tube: 620 (1 + 0.24 (1 - 0.50118)) = 694.2 mg/h while on, × 6 ÷ 15
    assert value(found.rate_on) * PER_HOUR == pytest.approx(694.2, abs=0.2)
    assert value(found.ozone_rate) * PER_HOUR == pytest.approx(277.7, abs=0.1)
    assert value(found.rate_cold) * PER_HOUR == pytest.approx(620.0 * 1.24)
    assert value(found.rate_steady) * PER_HOUR == pytest.approx(620.0)
    # 620 (1 + 0.24 (1 - 0.7577)), 620 (1 + 0.24 (1 - 0.1071))
    assert value(found.rate_end) * PER_HOUR == pytest.approx(656.1, abs=0.1)
    assert value(found.rate_start) * PER_HOUR == pytest.approx(752.9, abs=0.1)
    # from cold: mean 1 - 0.55865 = 0.44135; 620 (1 + 0.24 · 0.55865) · 0.1 h
    assert value(found.first_ozone) * 1e6 == pytest.approx(70.31, abs=0.02)
    codes = {note.code for note in found.notes}
    assert "duty-output-typed-slope" in codes
    assert "duty-output-constant" not in codes


def test_the_temperature_of_the_output_counts() -> None:
    cold, warm, between = (
        value(timer(STORY | HEAT | FALLS | {"output_at": at}).ozone_rate)
        for at in ("cold", "warm", "55 °C")
    )
    assert cold < between < warm
    # half of the rise is 55 °C: 620 (1 - 0.24 (0.50118 - 0.5)) × 0.4
    assert between * PER_HOUR == pytest.approx(247.9, abs=0.1)


def test_a_doubtful_coefficient_makes_a_doubtful_output() -> None:
    sure, doubtful = (
        timer(STORY | HEAT | FALLS | {"temperature_coefficient": text}).ozone_rate
        for text in ("-0.4 %/K ± 0.01", "-0.4 %/K ± 0.2")
    )
    assert isinstance(sure, Estimate)
    assert isinstance(doubtful, Estimate)
    assert doubtful.u > 1.2 * sure.u


def test_patterns_are_ranked_by_what_they_deliver() -> None:
    found = timer(STORY | HEAT | FALLS | {"rise": "60 K ± 1 K"})
    best = max(found.patterns, key=lambda row: row.ozone_rate)
    assert best.best


def test_without_heat_the_output_stays_and_says_so() -> None:
    found = timer(STORY | FALLS)
    assert found.rate_on is None
    assert output_figure(found) is None
    assert value(found.ozone_rate) * PER_HOUR == pytest.approx(248.0)
    assert {"duty-warmth-unknown", "duty-output-constant"} <= {note.code for note in found.notes}


def test_the_course_of_the_output() -> None:
    found = timer(STORY | HEAT | FALLS)
    points = output_course(found)
    assert points is not None
    rates = [rate for time, rate in points if 0.0 < time < 360.0]
    assert rates == sorted(rates, reverse=True)
    assert {rate for time, rate in points if 360.1 < time < 899.0} == {0.0}
    assert "output, g/h" in str(output_figure(found))
    assert "at the start of each on-time" in duty_text(found).replace("\n", " ").replace("  ", " ")


@pytest.mark.parametrize(
    ("wrong", "places"),
    [
        ({"output_at": None}, {"output_at"}),
        ({"output": None}, {"output"}),
        ({"output_at": "lukewarm"}, {"output_at"}),
        ({"temperature_coefficient": "-0.4"}, {"temperature_coefficient"}),
    ],
)
def test_what_is_missing_is_told(wrong: dict[str, str | None], places: set[str]) -> None:
    with pytest.raises(Faults) as caught:
        timer(STORY | HEAT | FALLS | wrong)
    assert {fault.where for fault in caught.value} == places


def test_a_tube_that_would_give_less_than_nothing_is_refused() -> None:
    with pytest.raises(Inconsistent, match="no ozone would be left"):
        timer(STORY | HEAT | FALLS | {"temperature_coefficient": "-3 %/K", "output_at": "cold"})


RUN = """
[[run]]
label = "{label}"
{setting}
on_time = "4 min"
rate = "{rate}"
start = "{start}"
[run.gas]
feed = {{ oxygen = "93 vol%", argon = "4 vol%", nitrogen = "3 vol%" }}
{flow}
temperature = "22 °C"
pressure = "101.3 kPa"
[run.electrical]
power = "38 W"
{wall}
"""


def written(label: str, rate: str, wall: str = "", flow: str = "0.8", **more: str) -> str:
    return RUN.format(
        label=label,
        rate=rate,
        start=more.get("start", "warm"),
        setting=more.get("setting", 'setting = "oxygen"'),
        flow=f'flow = "{flow} L/min"' if flow else "",
        wall=f'wall = "{wall}"' if wall else "",
    )


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Notebook]:
    with Notebook.create(tmp_path / "b.sqlite", "bench") as notebook:
        yield notebook


TIMED = {"on": "6 min", "off": "9 min"}


def test_the_generator_of_the_runs_tells_how_it_falls(book: Notebook) -> None:
    runs = [
        written("cold", "0.62 g/h ± 1 %", "30 °C"),
        written("warm", "0.50 g/h ± 1 %", "80 °C"),
        written("fast", "0.60 g/h ± 1 %", "60 °C", "1.6"),
        written("now", "0.52 g/h ± 1 %", "75 °C"),
    ]
    add_table(book, read_text("".join(runs)))
    found = timer(TIMED | {"log": log((60.0, 4.6)), "setting": "oxygen"}, book)
    cold, on, steady = (value(getattr(found, f"rate_{one}")) for one in ("cold", "on", "steady"))
    # read: 0.62 at 30 °C, 0.50 at 80 °C; the log goes from 23 to 83 °C. What is thought beforehand
    # of generators on oxygen holds against so steep a fall.
    assert cold * PER_HOUR == pytest.approx(630.0, rel=0.1)
    assert steady * PER_HOUR == pytest.approx(500.0, rel=0.1)
    assert cold > 1.1 * steady
    assert value(found.ozone_rate) == pytest.approx(0.4 * on)
    assert "generator-warmth" in {note.code for note in found.notes}
    for note in (*found.notes, *found.next):
        assert sentence(note)


def test_runs_without_flow_give_the_mean_of_their_setting(book: Notebook) -> None:
    add_table(
        book, read_text(written("a", "0.50 g/h", flow="") + written("b", "0.52 g/h", flow=""))
    )
    found = timer(TIMED | {"log": log((60.0, 4.6))}, book)
    assert value(found.ozone_rate) * PER_HOUR == pytest.approx(0.4 * 510.0)
    assert found.rate_on is None
    assert {"duty-no-fit", "duty-output-constant"} <= {note.code for note in found.notes}
    for note in found.notes:
        assert sentence(note)


def test_a_notebook_without_warmth_gives_the_mean(book: Notebook) -> None:
    add_table(book, read_text(written("a", "0.50 g/h") + written("b", "0.52 g/h")))
    found = timer(TIMED | {"time_constant": "4.6 min", "setting": "oxygen"}, book)
    assert value(found.ozone_rate) * PER_HOUR == pytest.approx(0.4 * 510.0)
    told = [sentence(note) for note in found.notes if note.code == "duty-no-fit"]
    assert "how warm" in told[0]


def test_what_a_notebook_can_not_tell(book: Notebook) -> None:
    add_table(book, read_text(written("a", "0.50 g/h", flow="", setting="")))
    with pytest.raises(Exception, match="names no setting"):
        timer(TIMED | {"time_constant": "4.6 min"}, book)
    with pytest.raises(NotFound):
        timer(TIMED | {"time_constant": "4.6 min", "setting": "air"}, book)
    with pytest.raises(Faults) as caught:
        timer(STORY | {"setting": "oxygen"}, book)
    assert {fault.where for fault in caught.value} == {"output"}


def test_readings_of_the_notebook_are_a_log(book: Notebook) -> None:
    """23 °C and 60 K with 4.6 min, noted each minute, switched off after 20."""
    noon = datetime(2026, 5, 9, 12).astimezone()
    later = Moment(noon + timedelta(hours=3))
    at = [(f"{noon + timedelta(minutes=m):%Y-%m-%dT%H:%M:%S}", m) for m in range(40)]
    press(book, Press("discharge on", "C1", at=at[0][0]), later, "test")
    press(book, Press("discharge off", "C1", at=at[20][0]), later, "test")
    for when, minute in at:
        warm = 60.0 * (1.0 - exp(-min(minute, 20) / 4.6)) * exp(-max(minute - 20, 0) / 4.6)
        one = Press("tube temperature", "C1", value=f"{23.0 + warm:.2f} °C", at=when)
        press(book, one, later, "test")
    found = timer(TIMED | {"output": "0.62 g/h", "readings": "C1", "limit": "70 °C"}, book)
    assert value(found.time_constant) == pytest.approx(4.6 * 60.0, rel=0.01)
    assert value(found.peak_temperature) - 273.15 == pytest.approx(68.46, abs=0.1)
    assert "duty-on-throughout" not in {note.code for note in found.notes}
    for texts, place in (
        ({"readings": "C2"}, "readings"),
        ({"readings": "C1", "log": log((60.0, 4.6))}, "readings"),
    ):
        with pytest.raises(Faults) as caught:
            timer(TIMED | {"output": "0.62 g/h"} | texts, book)
        assert place in {fault.where for fault in caught.value}
    with pytest.raises(Faults, match="none is given"):
        timer(TIMED | {"readings": "C1"})
