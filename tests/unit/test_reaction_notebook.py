"""A reaction whose output or uptake stands in the notebook."""

from __future__ import annotations

from collections.abc import Iterator
from math import isclose
from pathlib import Path
from typing import Any

import pytest

from ozonewright.bench.notebook import add_table
from ozonewright.bench.reaction import plan_of_entry, plan_of_label, reaction_plan
from ozonewright.errors import AppError, Faults, InputError
from ozonewright.notebook import Notebook
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.uncertain import Estimate
from unit.documents_of_reactions import table
from unit.documents_of_runs import full


def codes(plan: ReactionPlan) -> dict[str, str]:
    return {note.code: note.level for note in plan.notes}


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Notebook]:
    path = tmp_path_factory.mktemp("reaction") / "book.sqlite"
    with Notebook.create(path, "invented") as notebook:
        for label, minutes_ in (("C4", "4 min"), ("C5", "4 min"), ("C6", "8 min")):
            titres = ["28.46 mL", "1.02 mL"] if minutes_ == "4 min" else ["45.0 mL", "1.6 mL"]
            run = full(run__label=label, run__on_time=minutes_, titration__titres=titres)
            add_table(notebook, run)
        add_table(notebook, table())
        yield notebook


def test_the_output_of_a_run_and_its_guard_bottle(book: Notebook) -> None:
    plan = reaction_plan(table(output=None, run="C4", uptake=None, slip={"run": "C4"}), book)
    # By hand (design): 0.534 g/h and a guard share of 2.9 %.
    assert isinstance(plan.output, Estimate)
    assert isclose(plan.output.value * 3.6e6, 0.534, abs_tol=2e-3)
    assert isinstance(plan.uptake, Estimate)
    assert isclose(plan.uptake.value, 0.971, abs_tol=1e-3)
    assert plan.output_from == "run C4"
    assert codes(plan)["reaction-uptake-of-run"] == "doubt"
    assert codes(plan)["reaction-output-of-run"] == "doubt"


def test_the_output_of_a_setting(book: Notebook) -> None:
    name = book.settings()[0]
    plan = reaction_plan(table(output=None, setting=name), book)
    assert plan.output_from == f"setting {name}"
    assert isinstance(plan.output, Estimate)
    assert plan.output.u > 0.0
    assert any(code.startswith("setting-") for code in codes(plan))


def test_a_reaction_of_the_notebook_keeps_its_label(book: Notebook) -> None:
    (entry,) = book.entries(kind="reaction")
    assert plan_of_entry(book, entry).label == "vanillin, second lot"


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"output": None, "run": "C9"}, "Nearest"),
        ({"output": None, "setting": "none such"}, "no run of this setting"),
        ({"uptake": None, "slip": {"run": "X"}}, "no run of this name"),
    ],
)
def test_what_the_notebook_does_not_hold(
    book: Notebook, changes: dict[str, Any], told: str
) -> None:
    with pytest.raises(AppError, match=told):
        reaction_plan(table(**changes), book)


def test_runs_without_guard_or_output_are_told(tmp_path: Path) -> None:
    with Notebook.create(tmp_path / "book.sqlite", "invented") as book:
        add_table(book, {"run": {"label": "A", "on_time": "4 min", "collected": "35.6 mg"}})
        add_table(book, {"run": {"label": "B", "collected": "35.6 mg"}})
        with pytest.raises(Faults, match="no guard bottle"):
            reaction_plan(table(uptake=None, slip={"run": "A"}), book)
        with pytest.raises(Faults, match="has no output"):
            reaction_plan(table(output=None, run="B"), book)


def test_a_reaction_is_asked_by_its_label(book: Notebook) -> None:
    assert plan_of_label(book, "vanillin, second lot").label == "vanillin, second lot"
    with pytest.raises(InputError, match="no reaction"):
        plan_of_label(book, "C4")
