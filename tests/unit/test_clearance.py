"""Clearance: locked until two negatives, far enough apart, after the quench has had its time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ozonewright.bench.clearance import clearance_of, reactions
from ozonewright.bench.notebook import add_table
from ozonewright.errors import Faults, Inconsistent, NotFound
from ozonewright.notebook import Notebook
from ozonewright.questions.clearance import clearance
from ozonewright.records.clearance import Flask, PeroxideTest
from ozonewright.results import plain
from ozonewright.show.clearance import clearance_text
from ozonewright.show.words import sentence
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

ZONE = timezone(timedelta(hours=2))
NOON = datetime(2026, 5, 9, 12, 0, tzinfo=ZONE)
LABEL = "vanillin"
REACTION: dict[str, Any] = {
    "reaction": {
        "label": LABEL,
        "solvent": "methanol",
        "volume": "100 mL",
        "work_up": "reductive",
        "quench": {"reagent": "triphenylphosphine", "equivalents": 1.1},
        "tail": {"volume": "200 mL", "potassium_iodide": "4.0 g"},
    },
    "substrate": [{"smiles": "C/C=C/c1ccc(O)c(OC)c1", "amount": "10.0 mmol"}],
}


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Notebook]:
    with Notebook.create(tmp_path / "b.sqlite", "bench") as notebook:
        notebook.add("reaction", REACTION)
        yield notebook


def at(minutes: float) -> datetime:
    return NOON + timedelta(minutes=minutes)


def log(book: Notebook, what: str, minutes: float, value: str | None = None, **more: str) -> str:
    entry = {"what": what, "of": LABEL, "when": at(minutes), **more}
    return book.add("entry", {"entry": entry | ({"value": value} if value else {})}).id


def state(book: Notebook, minutes: float) -> tuple[str, str]:
    found = clearance_of(book, LABEL, at(minutes))
    assert found.why is not None
    return found.state, found.why.code


def test_nothing_logged_is_locked(book: Notebook) -> None:
    found = clearance_of(book, LABEL, at(0))
    assert found.state == "locked"
    assert found.why is not None
    assert found.why.code == "clearance-no-quench"
    assert "quench" in found.unknowns
    assert [note.code for note in found.needed] == ["clearance-need-quench", "clearance-need-two"]


def test_two_negatives_after_the_quench_clear_it(book: Notebook) -> None:
    log(book, "quench", 0)
    assert state(book, 60) == ("locked", "clearance-waiting")
    assert state(book, 121) == ("locked", "clearance-no-tests")
    log(book, "peroxide test", 121, "negative", method="strip", by="AB")
    assert state(book, 122) == ("locked", "clearance-one-negative")
    log(book, "peroxide test", 130, "negative", method="strip")
    assert state(book, 131) == ("locked", "clearance-too-close")
    log(book, "peroxide test", 131, "0 mg/L", method="iodide")
    assert state(book, 132) == ("clear", "clearance-clear")
    found = clearance_of(book, LABEL, at(132))
    assert found.needed == ()
    assert [row.counts for row in found.tests] == [True, True, True]
    assert found.tests[0].by == "AB"


def test_tests_before_the_quench_is_done_do_not_count(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 30, "negative")
    log(book, "peroxide test", 50, "negative")
    assert state(book, 125) == ("locked", "clearance-early")
    log(book, "peroxide test", 126, "negative")
    assert state(book, 140) == ("locked", "clearance-one-negative")
    codes = {note.code for note in clearance_of(book, LABEL, at(140)).notes}
    assert {"clearance-some-early", "clearance-method-unknown"} <= codes


def test_a_positive_starts_it_over(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 121, "negative")
    log(book, "peroxide test", 135, "2 mg/L")
    assert state(book, 136) == ("locked", "clearance-positive")
    log(book, "peroxide test", 140, "negative")
    assert state(book, 141) == ("locked", "clearance-one-negative")
    log(book, "peroxide test", 150, "negative")
    assert state(book, 151) == ("clear", "clearance-clear")


def test_a_positive_that_was_corrected_or_struck_out_still_counts(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 121, "negative")
    bad = log(book, "peroxide test", 128, "positive")
    log(book, "peroxide test", 132, "negative")
    data = book.get(bad).data["entry"] | {"value": "negative"}
    book.revise(bad, {"entry": data}, reason="typing slip")
    assert state(book, 140) == ("locked", "clearance-one-negative")
    book.withdraw(bad, reason="typing slip")
    assert state(book, 140) == ("locked", "clearance-one-negative")
    assert "clearance-changed" in {note.code for note in clearance_of(book, LABEL, at(140)).notes}


def test_a_struck_out_negative_no_longer_counts(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 121, "negative")
    last = log(book, "peroxide test", 133, "negative")
    assert state(book, 134)[0] == "clear"
    book.withdraw(last, reason="typing slip")
    assert state(book, 134)[0] == "locked"


def test_ozone_after_the_quench_locks_again(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 121, "negative")
    log(book, "peroxide test", 133, "negative")
    log(book, "discharge on", 140)
    assert state(book, 141) == ("locked", "clearance-ozone-after")
    log(book, "quench", 150)
    assert state(book, 160) == ("locked", "clearance-waiting")


def test_the_time_of_a_quench_can_be_stated(book: Notebook) -> None:
    log(book, "quench", 0, "30 min")
    log(book, "peroxide test", 31, "negative")
    log(book, "peroxide test", 42, "negative")
    found = clearance_of(book, LABEL, at(45))
    assert found.state == "clear"
    assert "clearance-short-wait" in {note.code for note in found.notes}


def test_a_quench_of_unknown_time_stays_locked(tmp_path: Path) -> None:
    with Notebook.create(tmp_path / "c.sqlite", "bench") as notebook:
        entry = {"what": "quench", "of": LABEL, "when": at(0)}
        notebook.add("entry", {"entry": entry})
        found = clearance_of(notebook, LABEL, at(600))
        assert found.state == "locked"
        assert found.why is not None
        assert found.why.code == "clearance-waiting-unknown"
        assert found.unknowns == ("reaction", "quench time")
        assert found.waste[0].mass is None
        assert "not known" in " ".join(clearance_text(found).split())


def test_an_old_clearance_asks_for_another_test(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 121, "negative")
    log(book, "peroxide test", 140, "negative")
    found = clearance_of(book, LABEL, at(60 * 30))
    assert "clearance-old" in {note.code for note in found.notes}


def test_a_test_dated_in_the_future_is_refused(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 121, "negative")
    log(book, "peroxide test", 133, "negative")
    with pytest.raises(Faults, match="dated in the future"):
        clearance_of(book, LABEL, at(125))


def test_a_test_still_to_come_is_not_taken_into_the_notebook(book: Notebook) -> None:
    later = datetime.now().astimezone() + timedelta(hours=1)
    entry = {"what": "peroxide test", "of": LABEL, "value": "negative", "when": later}
    with pytest.raises(Faults) as caught:
        add_table(book, {"entry": entry})
    assert [fault.where for fault in caught.value] == ["entry.when"]
    with pytest.raises(Faults) as caught:
        add_table(book, {"entry": [entry | {"when": at(0)}, entry | {"when": later.isoformat()}]})
    assert [fault.where for fault in caught.value] == ["entry[2].when"]


def test_unknown_and_double_labels(book: Notebook) -> None:
    with pytest.raises(NotFound, match="vanillin"):
        clearance_of(book, "vanilin", NOON)
    book.add("reaction", REACTION)
    assert reactions(book) == (LABEL, LABEL)
    with pytest.raises(Inconsistent, match="more than one reaction"):
        clearance_of(book, LABEL, NOON)


def test_an_empty_notebook_says_what_to_add(tmp_path: Path) -> None:
    with (
        Notebook.create(tmp_path / "d.sqlite", "bench") as notebook,
        pytest.raises(NotFound, match="Add the reaction"),
    ):
        clearance_of(notebook, LABEL, NOON)


@pytest.mark.parametrize(
    ("entry", "where"),
    [
        ({"what": "peroxide test", "of": LABEL}, "entry.value"),
        ({"what": "peroxide test", "value": "negative"}, "entry.of"),
        ({"what": "peroxide test", "of": LABEL, "value": "fine"}, "entry.value"),
        ({"what": "quench", "of": LABEL, "value": "soon"}, "entry.value"),
    ],
)
def test_entries_that_say_too_little_are_refused(
    book: Notebook, entry: dict[str, str], where: str
) -> None:
    with pytest.raises(Faults) as caught:
        add_table(book, {"entry": entry})
    assert [fault.where for fault in caught.value] == [where]


def test_waste_by_hand(book: Notebook) -> None:
    """4.0 g of iodide: 24.10 mmol, 12.05 mmol of iodine, 24.10 mmol × 248.18 = 5.98 g.

    Ten millimoles of peroxide: 1.26 g of sodium sulfite (hand calculation).
    """
    rows = plain(clearance_of(book, LABEL, NOON), sentence)["waste"]
    assert rows[0]["neutraliser_g"] == pytest.approx(5.98, abs=0.005)
    assert rows[1]["neutraliser_g"] == pytest.approx(1.260, abs=0.001)
    assert rows[2]["neutraliser"] == "none"


def with_reaction(book: Notebook, **changes: Any) -> dict[str, Any]:
    table = {**REACTION, "reaction": REACTION["reaction"] | {"label": "other"} | changes}
    book.add("reaction", table)
    return plain(clearance_of(book, "other", NOON), sentence)


def test_dimethyl_sulfide_meets_bleach_and_never_acid(book: Notebook) -> None:
    """Two equivalents on 10 mmol: 20 mmol × 74.44 = 1.49 g of hypochlorite."""
    found = with_reaction(book, quench={"reagent": "dimethyl sulfide", "equivalents": 2.0})
    assert found["waste"][2]["neutraliser_g"] == pytest.approx(1.489, abs=0.002)
    levels = {note["code"]: note["level"] for note in found["notes"]}
    assert levels["clearance-never-bleach"] == "wrong"
    assert levels["clearance-never-acetone"] == "doubt"


def test_acetone_and_borohydride_are_told(book: Notebook) -> None:
    found = with_reaction(
        book,
        solvent="acetone",
        work_up="borohydride",
        quench={"reagent": "sodium borohydride", "equivalents": 3.0},
        equivalents=2.0,
        tail={"volume": "100 mL", "potassium_iodide": "20 g/L"},
    )
    levels = {note["code"]: note["level"] for note in found["notes"]}
    assert levels["clearance-never-acetone"] == "wrong"
    assert levels["clearance-never-hydrogen"] == "wrong"
    assert "clearance-one-each" not in levels
    # 2 g of iodide are 12.05 mmol, and 2 × 10 mmol of ozone leave as much peroxide at the most
    assert found["waste"][0]["amount_mmol"] == pytest.approx(6.02, abs=0.01)
    assert found["waste"][1]["amount_mmol"] == pytest.approx(20.0)


def test_amounts_that_are_not_known_stay_unknown(book: Notebook) -> None:
    table = {
        "reaction": REACTION["reaction"] | {"label": "by mass", "tail": {}},
        "substrate": [{"smiles": "C=CCCCC", "mass": "1.0 g"}],
    }
    book.add("reaction", table)
    rows = plain(clearance_of(book, "by mass", NOON), sentence)["waste"]
    assert [row["amount_mmol"] for row in rows] == [None, None, None]


def test_text_says_it_all(book: Notebook) -> None:
    log(book, "quench", 0)
    log(book, "peroxide test", 121, "negative", method="strip", by="AB")
    text = clearance_text(clearance_of(book, LABEL, at(125)))
    assert text.startswith("■ Locked, do not evaporate: vanillin")
    for words in ("One negative test counts", "A second negative test at 9 May, 14:11", "Waste"):
        assert words in " ".join(text.split())
    log(book, "peroxide test", 140, "negative", method="strip")
    text = clearance_text(clearance_of(book, LABEL, at(150)))
    assert text.startswith("□ Clear to evaporate: vanillin")
    assert "Strips alone" in text


EVENTS = st.lists(
    st.tuples(st.integers(-300, 300), st.sampled_from(["negative", "positive"])), max_size=8
)


def flask(events: list[tuple[int, str]], waiting: float | None = 3600.0, **more: Any) -> Flask:
    tests = sorted(
        (PeroxideTest(at(minutes), reading) for minutes, reading in events),  # type: ignore[arg-type]
        key=lambda one: one.when,
    )
    stated = Measured(waiting, 0.0, "quench time", Kind.TIME) if waiting else None
    given_ = {"quenched": at(0), "waiting": stated} | more
    return Flask("any", at(300), tests=tuple(tests), **given_)


@given(events=EVENTS, minutes=st.integers(-300, 300))
def test_a_further_positive_never_clears(events: list[tuple[int, str]], minutes: int) -> None:
    before = clearance(flask(events)).state
    after = clearance(flask([*events, (minutes, "positive")])).state
    assert not (before == "locked" and after == "clear")


@given(events=EVENTS)
def test_taking_anything_away_never_clears(events: list[tuple[int, str]]) -> None:
    if clearance(flask(events)).state == "clear":
        return
    for gone in ({"quenched": None}, {"waiting": None}, {"ozone": at(10)}):
        assert clearance(flask(events, **gone)).state == "locked"
    negatives = [one for one in events if one[1] == "negative"]
    for number in range(len(negatives)):
        fewer = [one for one in events if one is not negatives[number]]
        assert clearance(flask(fewer)).state == "locked"


@given(events=EVENTS)
def test_clear_means_two_late_negatives_apart(events: list[tuple[int, str]]) -> None:
    found = clearance(flask(events))
    last_positive = max((m for m, reading in events if reading == "positive"), default=-1000)
    good = [m for m, r in events if r == "negative" and m >= 60 and m > last_positive]
    assert (found.state == "clear") == (bool(good) and max(good) - min(good) >= 10)
