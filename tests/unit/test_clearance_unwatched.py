"""What must be told of waste and of early tests, where a run of mutants found nobody watching."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from typing import Any

import pytest

from ozonewright.documents.convert_reaction import reaction_record
from ozonewright.documents.reaction import ReactionDocument
from ozonewright.documents.section import validated
from ozonewright.questions.clearance import clearance
from ozonewright.questions.clearance.waste import notes_of_waste, waste_rows
from ozonewright.records.clearance import Flask, PeroxideTest

NOON = datetime(2026, 5, 9, 12, 0, tzinfo=timezone(timedelta(hours=2)))


def flask(work_up: str, reagent: str, **more: Any) -> Flask:
    table = {
        "reaction": {
            "label": "v",
            "solvent": "methanol",
            "work_up": work_up,
            "quench": {"reagent": reagent, "equivalents": 1.1},
        },
        "substrate": [{"smiles": "C=CCCCC", "amount": "10.0 mmol"}],
    }
    reaction = reaction_record(validated(ReactionDocument, table))
    return Flask("v", more.pop("now", NOON), reaction, **more)


def levels(work_up: str, reagent: str) -> dict[str, str]:
    return {note.code: note.level for note in notes_of_waste(flask(work_up, reagent))}


def test_hydrogen_peroxide_must_not_meet_acetone() -> None:
    """With acid they make explosive cyclic peroxides (waste.csv)."""
    assert levels("oxidative", "hydrogen peroxide")["clearance-never-acetone"] == "wrong"
    assert levels("reductive", "triphenylphosphine")["clearance-never-acetone"] == "doubt"


@pytest.mark.parametrize(
    ("work_up", "reagent", "gives"),
    [
        ("reductive", "zinc", True),
        ("borohydride", "sodium borohydride", True),
        ("reductive", "triphenylphosphine", False),
    ],
)
def test_what_gives_hydrogen_is_told(work_up: str, reagent: str, gives: bool) -> None:
    assert ("clearance-never-hydrogen" in levels(work_up, reagent)) is gives


def test_every_stream_says_how_and_what_it_must_not_meet() -> None:
    rows = {row.stream: row for row in waste_rows(flask("reductive", "zinc"))}
    zinc = rows["zinc left over"]
    assert (zinc.how, zinc.never) == (
        "keep it wet, in its own open pot, until it no longer gives gas",
        "drying it; acid in a closed pot",
    )
    assert zinc.evidence == "common practice"
    # nothing neutralises zinc, so that no amount of a neutraliser belongs to it
    assert (zinc.amount, zinc.mass) == (None, None)
    assert all(row.how and row.never and row.stream for row in rows.values())


def test_an_early_test_is_told_with_the_time_from_which_tests_count() -> None:
    ready = NOON + timedelta(hours=2)  # what the table waits for triphenylphosphine
    early = PeroxideTest(NOON + timedelta(minutes=30), "negative", "strip", None)
    asked = flask(
        "reductive",
        "triphenylphosphine",
        now=ready + timedelta(minutes=5),
        quenched=NOON,
        tests=(early,),
    )
    found = clearance(asked)
    assert found.why is not None
    assert (found.why.code, found.why.values) == ("clearance-early", {"ready": ready})
    some = [note for note in found.notes if note.code == "clearance-some-early"]
    assert [note.values for note in some] == [{"ready": ready}]


def test_a_test_at_the_very_end_of_the_wait_is_not_early() -> None:
    ready = NOON + timedelta(hours=2)
    test = PeroxideTest(ready, "negative", "strip", None)
    found = clearance(
        flask("reductive", "triphenylphosphine", now=ready, quenched=NOON, tests=(test,))
    )
    assert found.why is not None
    assert found.why.code == "clearance-one-negative"
    assert "clearance-some-early" not in {note.code for note in found.notes}


def test_after_a_positive_more_quench_and_two_tests_are_needed() -> None:
    when = NOON + timedelta(hours=3)
    test = PeroxideTest(when, "positive", "strip", None)
    found = clearance(
        flask("reductive", "triphenylphosphine", now=when, quenched=NOON, tests=(test,))
    )
    assert found.why is not None
    assert found.why.values == {"when": when}
    assert [note.code for note in found.needed] == [
        "clearance-need-more-quench",
        "clearance-need-two",
    ]
