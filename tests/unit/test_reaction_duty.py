"""A reaction with its generator on a timer: output, on-time and clock time."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from ozonewright.bench.notebook import add_table
from ozonewright.bench.reaction import reaction_plan
from ozonewright.bench.reaction_duty import plan_under_duty
from ozonewright.documents.load import read_text
from ozonewright.errors import Faults, Inconsistent, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.reaction import reaction_text
from ozonewright.show.words import sentence
from unit.test_duty import log, value
from unit.test_duty_output import PER_HOUR, written

HEAT = {"time_constant": "4.6 min", "rise": "60 K", "ambient": "25 °C"}
FALLS = {"temperature_coefficient": "-0.4 %/K", "output_at": "warm"}


def table(**more: Any) -> dict[str, Any]:
    return {
        "reaction": {
            "label": "lot",
            "solvent": "methanol",
            "volume": "100 mL",
            "temperature": "-40 °C",
            "work_up": "reductive",
            "output": "0.62 g/h ± 0.01",
            "uptake": "88 % ± 2 points",
            **more,
        },
        "substrate": [{"smiles": "C/C=C/c1ccc(O)c(OC)c1", "amount": "10.0 mmol"}],
    }


TIMER = {"timer": {"on": "6 min", "off": "9 min"}}


def codes(plan: ReactionPlan) -> set[str]:
    return {note.code for note in plan.notes}


def test_the_on_time_is_that_of_the_output_under_the_timer() -> None:
    plain = reaction_plan(table(**TIMER))
    plan = plan_under_duty(table(**TIMER), HEAT | FALLS)
    # 694.2 mg/h while on, by hand in test_duty_output.py, in place of 620
    assert value(plan.output) * PER_HOUR == pytest.approx(694.2, abs=0.2)
    assert value(plan.on_time) == pytest.approx(value(plain.on_time) * 620.0 / 694.2, rel=1e-3)
    # 47.2 min of on-time are 8 periods with 7 rests of 9 min between them
    assert plan.starts == 8
    assert plan.clock_time == pytest.approx(value(plan.on_time) + 7 * 540.0, rel=1e-3)
    assert plan.timer is not None
    assert value(plan.timer.peak_temperature) - 273.15 == pytest.approx(70.46, abs=0.01)
    assert not plan.timer.chosen
    text = " ".join(reaction_text(plan).split())
    assert "6.0 min on, 9.0 min off; the tube peaks at 70.5 °C; output 0.694 g/h while on" in text
    assert {"reaction-under-timer", "reaction-timer"} <= codes(plan)
    for note in plan.notes:
        assert sentence(note)


def test_the_limit_chooses_the_pattern() -> None:
    plan = plan_under_duty(table(), HEAT | FALLS | {"limit": "70 °C"})
    assert plan.timer is not None
    assert plan.timer.chosen
    assert value(plan.timer.peak_temperature) < 343.15
    assert plan.clock_time is not None
    assert plan.clock_time > value(plan.on_time)
    assert "chosen: most ozone with the tube below 70.0 °C" in " ".join(reaction_text(plan).split())


def test_a_tube_that_stays_cool_runs_on() -> None:
    plan = plan_under_duty(table(), HEAT | FALLS | {"limit": "120 °C"})
    assert plan.timer is not None
    assert plan.timer.on is None
    # the warm tube's output, as typed
    assert value(plan.output) * PER_HOUR == pytest.approx(620.0, abs=0.1)
    assert "reaction-no-rest-needed" in codes(plan)
    assert "no rest needed" in reaction_text(plan)


def test_a_constant_output_stays() -> None:
    plan = plan_under_duty(table(**TIMER), HEAT | {"limit": "70 °C"})
    assert value(plan.output) * PER_HOUR == pytest.approx(620.0)
    assert plan.timer is not None
    assert plan.timer.rate_on is None
    assert "duty-above-limit" in codes(plan)
    assert "reaction-under-timer" not in codes(plan)


@pytest.mark.parametrize(
    ("said", "error", "words"),
    [
        (HEAT, MissingValue, "neither a timer nor a limit"),
        ({"time_constant": "4.6 min", "limit": "70 °C"}, MissingValue, "how warm the tube becomes"),
        (HEAT | {"limit": "27 °C"}, Inconsistent, "stays below this limit"),
        (HEAT | {"limit": "hot"}, Faults, "limit"),
    ],
)
def test_what_is_missing_is_told(said: dict[str, str], error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        plan_under_duty(table(), said)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Notebook]:
    with Notebook.create(tmp_path / "b.sqlite", "bench") as notebook:
        yield notebook


def test_the_generator_of_the_setting_tells_the_output(book: Notebook) -> None:
    runs = [written("a", "0.55 g/h ± 1 %", "45 °C"), written("b", "0.50 g/h ± 1 %", "80 °C")]
    add_table(book, read_text("".join(runs)))
    of_setting = table(**TIMER, setting="oxygen")
    del of_setting["reaction"]["output"]
    plan = plan_under_duty(of_setting, {"log": log((60.0, 4.6))}, book)
    assert 480.0 < value(plan.output) * PER_HOUR < 580.0
    assert plan.output_from == "timer oxygen"
    assert {"reaction-under-timer", "generator-warmth"} <= codes(plan)
    of_run = table(**TIMER, run="a")
    del of_run["reaction"]["output"]
    plan = plan_under_duty(of_run, HEAT | FALLS, book)
    # 550 mg/h by the arithmetic of the first test: 1.11972 of it
    assert value(plan.output) * PER_HOUR == pytest.approx(615.8, abs=0.3)


def test_without_an_output_the_timer_is_told_alone() -> None:
    bare = table(**TIMER)
    del bare["reaction"]["output"]
    plan = plan_under_duty(bare, HEAT)
    assert plan.on_time is None
    assert plan.timer is not None
    assert value(plan.timer.peak_temperature) - 273.15 == pytest.approx(70.46, abs=0.01)
