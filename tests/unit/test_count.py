"""The count against a made-up bench whose truth is walked through second by second."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ozonewright.questions.count import Count, Mark, Subject, count
from ozonewright.records.event import ACTS, Act
from ozonewright.show.count import amount_text, answer_line, count_text, plan_text
from ozonewright.uncertain import Measured
from ozonewright.units import Kind
from unit.bench_clocks import Bench

HOUR = 3600.0
PLAIN = Subject("C8")
SECONDS = st.integers(0, 300)
Step = tuple[str, Any]
PRESS: st.SearchStrategy[Step] = st.tuples(st.just("press"), st.sampled_from(ACTS))
WAIT: st.SearchStrategy[Step] = st.tuples(st.just("wait"), SECONDS)
SET: st.SearchStrategy[Step] = st.tuples(st.just("set_clock"), st.integers(-4000, 4000))
RESTART: st.SearchStrategy[Step] = st.tuples(st.just("restart"), SECONDS)
LATE: st.SearchStrategy[Step] = st.tuples(st.just("late"), st.sampled_from(ACTS))


def steps(*kinds: st.SearchStrategy[Step]) -> st.SearchStrategy[list[Step]]:
    # what makes on-time comes often, so that there is something to count
    common = st.sampled_from([("press", "gas on"), ("press", "discharge on"), ("wait", 60)])
    return st.lists(st.one_of(common, PRESS, WAIT, *kinds), max_size=25)


def played(script: list[Step]) -> Bench:
    bench, waiting = Bench(), list[tuple[int, Act]]()
    for what, value in script:
        if what == "late":
            waiting.append(bench.press_offline(value))
        else:
            getattr(bench, what)(value)
        if what == "wait":
            while waiting:
                bench.arrives(waiting.pop())
    while waiting:
        bench.arrives(waiting.pop())
    return bench


def counted(bench: Bench, subject: Subject = PLAIN) -> Count:
    return count(bench.events, bench.moment(), subject)


def seconds(found: Count) -> float:
    assert found.on_time is not None
    return found.on_time.value


def codes(found: Count) -> list[str]:
    return [note.code for note in found.notes]


@given(steps())
def test_any_order_of_presses_counts_as_the_bench_did(script: list[Step]) -> None:
    bench = played(script)
    assert seconds(counted(bench)) == pytest.approx(bench.truth(), abs=1e-6)


@given(steps(SET))
def test_a_clock_set_meanwhile_changes_nothing_and_is_told(script: list[Step]) -> None:
    bench = played(script)
    found = counted(bench)
    assert seconds(found) == pytest.approx(bench.truth(), abs=1e-6)
    walls = [event.at.wall for event in bench.events] + [bench.moment().wall]
    runs_back = any(one > other for one, other in pairwise(walls))
    far = any((one - other).total_seconds() > 2.0 for one, other in pairwise(walls))
    assert not far or (runs_back and "count-clock-set" in codes(found))


@given(steps(RESTART))
def test_after_a_restart_the_wall_clock_counts_and_the_gap_is_shown(script: list[Step]) -> None:
    bench = played(script)
    found = counted(bench)
    assert seconds(found) == pytest.approx(bench.truth(), abs=1e-6)
    assert found.gap is not None
    assert found.gap <= seconds(found) + 1e-6
    assert (found.gap > 0.0) == any(
        note.code == "count-gap" and note.values["length"] > 0.0 for note in found.notes
    )


@given(steps(SET, RESTART, LATE))
def test_time_never_runs_backwards(script: list[Step]) -> None:
    bench = played(script)
    found = counted(bench)
    assert seconds(found) >= 0.0
    assert found.gap is not None
    assert 0.0 <= found.gap <= seconds(found) + 1e-6
    then = [row.on_time for row in found.events]
    assert then == sorted(then)
    bench.wait(10)
    assert seconds(counted(bench)) >= seconds(found) - 1e-6
    assert count_text(found)


@given(steps(LATE))
def test_a_press_that_arrives_late_counts_at_its_own_time(script: list[Step]) -> None:
    bench = played(script)
    # two presses of one second have no order that a person could tell
    if len({time for time, _ in bench.pressed}) == len(bench.pressed):
        assert seconds(counted(bench)) == pytest.approx(bench.truth(), abs=1e-6)


def four_minutes() -> Bench:
    bench = Bench()
    bench.press("gas on")
    bench.wait(30)
    bench.press("discharge on")
    bench.wait(240)
    return bench


def test_the_hand_sum_of_a_run() -> None:
    """By hand: 11.1 mmol/h for 4 min are 0.740 mmol; u: 5 % and 1 s of 240 s are 5.02 %."""
    output = Measured(11.1e-3 / HOUR, 0.05 * 11.1e-3 / HOUR, "output", Kind.AMOUNT_RATE)
    found = counted(four_minutes(), Subject("C8", "run", output))
    assert found.dosed is not None
    assert found.dosed.value == pytest.approx(0.740e-3)
    assert found.dosed.u == pytest.approx(0.0502 * 0.740e-3, rel=1e-3)
    assert answer_line(found) == "C8: 4 min of on-time, 0.740 ± 0.037 mmol sent in"


def test_the_hand_sum_of_a_reaction() -> None:
    """By hand: 0.62 g/h is 12.92 mmol/h; 30 min at 88 % are 5.684 of 10.0 mmol; 4.316 remain."""
    output = Measured(0.62 / 48.0 / HOUR, 0.05 * 0.62 / 48.0 / HOUR, "output", Kind.AMOUNT_RATE)
    uptake = Measured(0.88, 0.035, "uptake", Kind.SHARE)
    wanted = Measured(10.0e-3, 0.0, "wanted", Kind.AMOUNT)
    bench = four_minutes()
    bench.wait(1560)
    subject = Subject("vanillin", "reaction", output, uptake, wanted, 3168.0,
                      (Mark("look", 2520.0), Mark("stop by", 3480.0)))  # fmt: skip
    found = counted(bench, subject)
    assert found.taken_up is not None
    assert found.remaining is not None
    assert found.time_left is not None
    assert found.taken_up.value == pytest.approx(5.683e-3, abs=1e-6)
    assert found.remaining.value == pytest.approx(4.317e-3, abs=1e-6)
    assert found.time_left.value / 60.0 == pytest.approx(22.8, abs=0.02)
    assert amount_text(found).endswith("of 10.0 mmol taken up")
    assert [mark.left for mark in found.marks] == [720.0, 1680.0]
    assert found.next[0].values["left"] == 720.0
    assert plan_text(found) == "22 min 48 s left of 52 min 48 s planned"
    bench.wait(1800)
    late = counted(bench, subject)
    assert "count-stop-now" in [note.code for note in late.next]
    assert "count-past" in codes(late)


def test_discharge_without_gas_never_counts_and_is_told() -> None:
    bench = Bench()
    bench.press("discharge on")
    bench.wait(60)
    found = counted(bench)
    assert seconds(found) == 0.0
    assert [note.code for note in found.next] == ["count-log-gas"]
    assert "count-no-gas" in codes(found)
    bench.press("gas on")
    bench.wait(60)
    assert seconds(counted(bench)) == 60.0


def test_the_gas_runs_on_after_the_discharge() -> None:
    bench = four_minutes()
    bench.press("stop")
    bench.wait(50)
    assert counted(bench).run_on_left == 70.0
    assert "count-run-on" in [note.code for note in counted(bench).next]
    bench.press("gas off")
    assert "count-run-on-short" in codes(counted(bench))
    bench.events.pop()
    bench.wait(70)
    assert counted(bench).run_on_left is None
    assert "count-gas-off" in [note.code for note in counted(bench).next]


def test_a_restart_is_shown_with_its_times() -> None:
    bench = four_minutes()
    bench.restart(100)
    bench.wait(20)
    found = counted(bench)
    assert seconds(found) == 360.0
    assert found.gap == 360.0
    bench.press("into bottle")
    bench.wait(40)
    assert (seconds(counted(bench)), counted(bench).gap) == (400.0, 360.0)
    assert "6 min of on-time rest on the wall clock" in count_text(found).replace("\n    ", " ")


def test_a_clock_set_back_over_a_restart_is_told_and_counts_no_time() -> None:
    bench = four_minutes()
    bench.press("into bottle")
    bench.restart(10)
    bench.set_clock(-3600)
    found = counted(bench)
    assert seconds(found) == 240.0
    assert "count-restart-back" in codes(found)
    bench.wait(60)
    bench.press("stop")
    assert seconds(counted(bench)) == 300.0


def test_an_event_ahead_of_the_clock_waits() -> None:
    bench = four_minutes()
    early = bench.moment()
    bench.wait(600)
    bench.press("stop")
    found = count([*bench.events], early, PLAIN)
    assert "count-ahead" in codes(found)
    assert seconds(found) == 240.0


def test_two_computers_at_one_notebook_are_not_taken_for_restarts() -> None:
    bench = four_minutes()
    other = bench.moment()
    bench.events.insert(
        1,
        bench.events[0].__class__(
            "x",
            "into bottle",
            other.__class__(bench.events[0].at.wall - timedelta(seconds=5), 7.0, "other"),
        ),
    )
    assert "count-restart-back" not in codes(counted(bench))
    assert seconds(counted(bench)) == 240.0


def test_nothing_logged_is_not_known_rather_than_off() -> None:
    found = count([], Bench().moment(), PLAIN)
    assert (found.gas, found.discharge) == ("not logged", "not logged")
    assert [note.code for note in found.next] == ["count-begin", "count-no-output"]
    assert found.unknowns == ("output", "planned on-time")
