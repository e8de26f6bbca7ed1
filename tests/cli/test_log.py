"""`ozonewright log` as a person types it, and events as entries of the notebook."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from cli.typed import run
from ozonewright.bench.count import count_so_far, current
from ozonewright.bench.log import Press, known_word, logged, press, take_back
from ozonewright.cli.log import ASKED
from ozonewright.errors import Inconsistent, InputError
from ozonewright.notebook import Notebook
from ozonewright.records.event import Moment
from ozonewright.show.count import count_text

START = datetime(2026, 5, 9, 11, 0, tzinfo=UTC)


@pytest.fixture
def book(tmp_path: Path) -> str:
    Notebook.create(tmp_path / "b.sqlite", "bench").close()
    return str(tmp_path / "b.sqlite")


def log(book: str, *words: str) -> str:
    done = run("log", "--notebook", book, *words)
    assert done.returncode == 0, done.stderr
    return done.stdout


def refused(book: str, *words: str) -> str:
    done = run("log", "--notebook", book, *words)
    assert done.returncode == 2
    return done.stderr


def test_the_first_events_of_a_run(book: str) -> None:
    said = log(book, "--of", "C8", "gas on", "--at", "2026-05-09T11:00")
    assert said.startswith("stored at 11:00:00: gas on, of C8\n")
    assert "(as the last event; --of names another)" in log(
        book, "discharge on", "--at", "2026-05-09T11:01"
    )
    log(book, "stop", "--at", "2026-05-09T11:05:00")
    log(book, "output", "--value", "0.533 g/h ± 5 %")
    # by hand: 0.533 g/h / 48.00 g/mol x 4/60 h = 0.740 mmol
    assert log(book).strip().startswith("C8: 4 min of on-time, 0.740 ± 0.037 mmol sent in")
    found = json.loads(log(book, "--json"))
    assert found["on_time_s"] == 240.0
    assert found["dosed_mmol"] == pytest.approx(0.740, abs=5e-4)
    assert found["taken_up_mmol"] is None
    assert [row["what"] for row in found["events"]] == ["gas on", "discharge on", "stop"]


def test_undo_strikes_out_and_keeps(book: str) -> None:
    log(book, "--of", "C8", "gas on")
    log(book, "discharge on")
    assert log(book, "--undo").startswith("taken back: discharge on")
    with Notebook.open(book) as notebook:
        last = notebook.entries(kind="entry", withdrawn=True)[-1]
        assert last.withdrawn
        assert take_back(notebook, last.id).revision == last.revision
    assert json.loads(log(book, "--json"))["discharge"] == "not logged"
    log(book, "--undo")
    assert "no event" in refused(book, "--undo")


def test_an_empty_notebook_says_how_to_begin(book: str) -> None:
    assert 'ozonewright log --notebook FILE --of C8 "gas on"' in refused(book)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["gason"], 'Write "gas on"'),
        (["discharge"], 'Write "discharge on"'),
        (["gas on", "--at", "25:00"], "this is no time"),
        (["gas on", "--at", "2999-01-01T00:00"], "still to come"),
        (["gas on", "--at", "1999-01-01T00:00"], "more than a year ago"),
        (["output"], "needs a value"),
        (["output", "--value", "0.6"], "unit"),
        (["output", "--value", "0 g/h"], "above"),
        (["uptake", "--value", "120 %"], "above 100 %"),
        (["titre of bottle 1", "--value", "28 g"], "volume"),
        (["planned on-time", "--value", "4"], "unit"),
    ],
)
def test_what_can_not_be_meant_is_refused_and_nothing_is_written(
    book: str, words: list[str], told: str
) -> None:
    assert told in refused(book, "--of", "C8", *words)
    with Notebook.open(book) as notebook:
        assert notebook.entries() == []


def test_other_words_are_kept_as_typed_and_count_nothing(book: str) -> None:
    log(book, "--of", "C8", "opened the window", "--remark", "smell")
    with Notebook.open(book) as notebook:
        (entry,) = notebook.entries()
        assert entry.data["entry"]["what"] == "opened the window"
        assert entry.data["entry"]["remark"] == "smell"
        assert current(notebook) is None
    assert known_word("Gas  ON") == "gas on"


def test_an_entry_carries_all_three_clocks(book: str) -> None:
    log(book, "--of", "C8", "gas on")
    with Notebook.open(book) as notebook:
        clock = notebook.entries()[0].data["entry"]["clock"]
    assert clock["monotonic"].endswith(" s")
    assert clock["boot"]


def moment(seconds: float) -> Moment:
    return Moment(START + timedelta(seconds=seconds), 1000.0 + seconds, "boot")


def test_the_same_press_sent_twice_is_kept_once(book: str) -> None:
    with Notebook.open(book) as notebook:
        one = Press("gas on", "C8", id="abcdefghjkm0")
        first = press(notebook, one, moment(0), "page")
        again = press(
            notebook, Press("gas on", "C8", id="abcdefghjkm0", ago=40.0), moment(40), "page"
        )
        assert first == again
        assert len(logged(notebook, "C8")) == 1
        take_back(notebook, first.id)
        assert press(notebook, one, moment(50), "page").withdrawn
        assert logged(notebook, "C8") == []
        with pytest.raises(Inconsistent, match="another entry"):
            press(notebook, Press("stop", "C8", id="abcdefghjkm0"), moment(60), "page")
        with pytest.raises(InputError, match="no id"):
            press(notebook, Press("stop", "C8", id="../../etc"), moment(60), "page")


def test_a_press_kept_on_the_page_counts_at_its_own_time(book: str) -> None:
    with Notebook.open(book) as notebook:
        press(notebook, Press("gas on", "C8"), moment(0), "page")
        press(notebook, Press("stop", "C8"), moment(100), "page")
        late = press(notebook, Press("discharge on", "C8", ago=90.0), moment(110), "page")
        assert late.data["entry"]["sent_after"] == "90 s"
        found = count_so_far(notebook, "C8", moment(200), ASKED)
        assert found.on_time is not None
        assert found.on_time.value == pytest.approx(80.0)
        assert [row.sent_after for row in found.events] == [None, 90.0, None]


def test_a_press_from_before_the_boot_has_its_time_of_day_alone(book: str) -> None:
    with Notebook.open(book) as notebook:
        entry = press(notebook, Press("gas on", "C8", ago=2000.0), moment(0), "page")
        assert "clock" not in entry.data["entry"]


def test_a_time_corrected_by_hand_counts(book: str) -> None:
    with Notebook.open(book) as notebook:
        press(notebook, Press("gas on", "C8"), moment(0), "page")
        entry = press(notebook, Press("discharge on", "C8"), moment(60), "page")
        table = {"entry": dict(entry.data["entry"]) | {"when": START + timedelta(seconds=30)}}
        notebook.revise(entry.id, table, reason="misread")
        found = count_so_far(notebook, "C8", moment(100), ASKED)
        assert found.on_time is not None
        assert found.on_time.value == pytest.approx(70.0)


RUN = {"run": {"label": "C4", "setting": "0.8 L/min", "on_time": "240 s", "rate": "0.60 g/h ± 2 %"}}


def test_the_output_comes_from_the_setting_or_the_run_itself(book: str) -> None:
    with Notebook.open(book) as notebook:
        notebook.add("run", RUN)
        press(notebook, Press("gas on", "C5"), moment(0), "page")
        press(notebook, Press("setting", "C5", value="0.8 L/min"), moment(0), "page")
        press(notebook, Press("discharge on", "C5"), moment(0), "page")
        found = count_so_far(notebook, "C5", moment(3600), ASKED)
        # by hand: 0.60 g/h over 48.00 g/mol is 12.5 mmol/h
        assert found.dosed is not None
        assert found.dosed.value == pytest.approx(12.5e-3, rel=1e-4)
        press(notebook, Press("gas on", "C4"), moment(0), "page")
        press(notebook, Press("discharge on", "C4"), moment(0), "page")
        own = count_so_far(notebook, "C4", moment(250), ASKED)
        assert (own.planned, own.over) == (240.0, pytest.approx(10.0))
        assert own.rate is not None
        press(notebook, Press("setting", "C6", value="new one"), moment(0), "page")
        assert count_so_far(notebook, "C6", moment(1), ASKED).unknowns[0] == "output"


def test_a_reaction_by_hand(book: str) -> None:
    for what, value in (("output", "0.72 g/h"), ("uptake", "88 %"), ("wanted", "12.0 mmol")):
        log(book, "--of", "ether", what, "--value", value)
    for what, at in (("gas on", "11:00"), ("discharge on", "11:01"), ("stop", "11:55:30")):
        log(book, "--of", "ether", what, "--at", f"2026-05-09T{at}")
    found = json.loads(log(book, "--of", "ether", "--json"))
    # by hand: 12.0 mmol at 0.72 g/h and 88 % take 54.5 min
    assert found["on_time_s"] == 3270.0
    assert found["remaining_mmol"] == pytest.approx(0.0, abs=0.02)
    assert found["of_kind"] == "reaction"


REACTION = {
    "reaction": {
        "label": "vanillin",
        "solvent": "methanol",
        "work_up": "reductive",
        "output": "0.62 g/h ± 5 %",
        "uptake": "88 % ± 3.5 points",
    },
    "substrate": [{"smiles": "C/C=C/c1ccc(O)c(OC)c1", "amount": "10.0 mmol"}],
}


def test_a_reaction_of_the_notebook_brings_its_plan(book: str) -> None:
    """By hand (design, section 4): 52.8 min, look from 42, stop by 58; 30 min are 5.68 mmol."""
    with Notebook.open(book) as notebook:
        notebook.add("reaction", REACTION)
        press(notebook, Press("gas on", "vanillin"), moment(0), "page")
        press(notebook, Press("discharge on", "vanillin"), moment(0), "page")
        found = count_so_far(notebook, "vanillin", moment(1800), ASKED)
        assert [mark.name for mark in found.marks] == ["look", "stop by"]
        assert [(mark.on_time or 0) / 60 for mark in found.marks] == pytest.approx(
            [42.2, 58.1], abs=0.1
        )
        assert found.planned is not None
        assert found.planned / 60 == pytest.approx(52.8, abs=0.05)
        assert found.taken_up is not None
        assert found.taken_up.value == pytest.approx(5.68e-3, abs=0.01e-3)
        assert found.wanted is not None
        assert found.wanted.value == pytest.approx(10.0e-3)
        # half the output logged at the bench: everything takes twice as long
        press(notebook, Press("output", "vanillin", value="0.31 g/h ± 5 %"), moment(5), "page")
        slow = count_so_far(notebook, "vanillin", moment(1800), ASKED)
        assert slow.planned == pytest.approx(2.0 * found.planned, rel=1e-6)
        press(notebook, Press("wanted", "vanillin", value="5 mmol"), moment(6), "page")
        assert count_so_far(notebook, "vanillin", moment(1800), ASKED).marks == ()


def test_a_plan_that_can_not_be_made_stops_no_count(book: str) -> None:
    table = REACTION["reaction"] | {"setting": "none", "uptake": "88 %"}  # type: ignore[operator]
    del table["output"]
    with Notebook.open(book) as notebook:
        notebook.add("reaction", {"reaction": table, "substrate": REACTION["substrate"]})
        press(notebook, Press("gas on", "vanillin"), moment(0), "page")
        press(notebook, Press("discharge on", "vanillin"), moment(0), "page")
        found = count_so_far(notebook, "vanillin", moment(60), ASKED)
    assert found.on_time is not None
    assert found.on_time.value == pytest.approx(60.0)
    assert "count-no-plan" in [note.code for note in found.notes]
    assert "no run of this setting" in count_text(found)


def test_the_plan_is_made_anew_when_a_run_of_its_setting_comes_in(book: str) -> None:
    table = REACTION["reaction"] | {"setting": "0.8 L/min"}  # type: ignore[operator]
    del table["output"]
    with Notebook.open(book) as notebook:
        notebook.add("run", RUN)
        notebook.add("reaction", {"reaction": table, "substrate": REACTION["substrate"]})
        press(notebook, Press("gas on", "vanillin"), moment(0), "page")
        first = count_so_far(notebook, "vanillin", moment(60), ASKED)
        second = {"run": RUN["run"] | {"label": "C5", "rate": "0.40 g/h ± 2 %"}}
        notebook.add("run", second)
        later = count_so_far(notebook, "vanillin", moment(60), ASKED)
    assert first.rate is not None
    assert later.rate is not None
    # by hand: the mean of 0.60 and 0.40 g/h
    assert later.rate.value / first.rate.value == pytest.approx(0.5 / 0.6, rel=1e-6)


def test_a_field_blank_takes_the_output_of_its_setting(book: str) -> None:
    titration = {"titres": ["0.40 mL"], "titrant": {"concentration": "0.0510 mol/L"}}
    with Notebook.open(book) as notebook:
        notebook.add("run", RUN)
        for label, setting in (("C5", "0.8 L/min"), ("D1", "blanks alone")):
            blank = {"label": label, "setting": setting, "on_time": "240 s", "discharge": "off"}
            notebook.add("run", {"run": blank, "titration": titration})
            press(notebook, Press("gas on", label), moment(0), "page")
            press(notebook, Press("discharge on", label), moment(0), "page")
        found = count_so_far(notebook, "C5", moment(3600), ASKED)
        # by hand: 0.60 g/h over 48.00 g/mol is 12.5 mmol/h
        assert found.dosed is not None
        assert found.dosed.value == pytest.approx(12.5e-3, rel=1e-4)
        assert count_so_far(notebook, "D1", moment(3600), ASKED).dosed is None


def test_the_whole_answer_of_a_reaction_in_words(book: str) -> None:
    with Notebook.open(book) as notebook:
        notebook.add("reaction", REACTION)
        press(notebook, Press("gas on", "vanillin"), moment(0), "page")
        press(notebook, Press("discharge on", "vanillin"), moment(0), "page")
        text = count_text(count_so_far(notebook, "vanillin", moment(45 * 60), ASKED))
    for words in (
        # by hand: 12.92 mmol/h for 0.75 h at 88 % are 8.53; 5 % and 3.5 of 88 make 6.39 %, 0.545
        "vanillin: 45 min of on-time, 8.53 ± 0.54 of 10.0 mmol taken up",
        "7 min 47 s left of 52 min 47 s planned",
        "1.47 ± 0.55 mmol remain",
        "look                 at 42 min 14 s  passed",
        "1 Stop by, in 13 min 4 s of on-time.",
    ):
        assert words in text, text


def test_a_first_remark_needs_no_run(book: str) -> None:
    assert log(book, "opened the window").startswith("stored at ")
    assert "this is no press" in refused_undo(book)


def refused_undo(book: str) -> str:
    with Notebook.open(book) as notebook:
        run = notebook.add("run", RUN)
        with pytest.raises(Inconsistent) as told:
            take_back(notebook, run.id)
    return str(told.value)


def test_two_runs_of_one_label_are_refused(book: str) -> None:
    with Notebook.open(book) as notebook:
        notebook.add("run", RUN)
        notebook.add("run", RUN)
        press(notebook, Press("gas on", "C4"), moment(0), "page")
    assert "more than one run or reaction" in refused(book)
