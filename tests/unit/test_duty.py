"""The duty question: figures by hand, what is told, what is refused."""

from __future__ import annotations

import pytest

from ozonewright.bench.duty import timer
from ozonewright.errors import Faults, Inconsistent
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
