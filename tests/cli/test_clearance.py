"""`ozonewright clearance` as a person types it."""

from __future__ import annotations

import json
import shutil
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from cli.typed import run

REACTION = """
[reaction]
label = "vanillin, second lot"
solvent = "methanol"
quench = { reagent = "triphenylphosphine", equivalents = 1.10 }
[[substrate]]
smiles = "C/C=C/c1ccc(O)c(OC)c1"
amount = "10.0 mmol"
"""
LABEL = "vanillin, second lot"


@pytest.fixture
def book(tmp_path: Path) -> str:
    path = tmp_path / "reaction.toml"
    path.write_text(REACTION, encoding="utf-8")
    book = str(tmp_path / "b.sqlite")
    assert run("notebook", "new", book).returncode == 0
    assert run("add", str(path), "--notebook", book).returncode == 0
    return book


def ago(minutes: float) -> str:
    return (datetime.now() - timedelta(minutes=minutes)).isoformat(timespec="seconds")


def log(book: str, *words: str) -> None:
    assert run("log", "--notebook", book, "--of", LABEL, *words).returncode == 0


def test_from_locked_to_clear(book: str) -> None:
    found = json.loads(run("clearance", "--notebook", book, LABEL, "--json").stdout)
    assert found["state"] == "locked"
    assert "No quench" in found["why"]
    assert len(found["needed"]) == 2
    log(book, "quench", "--at", ago(200))
    test = ("peroxide test", "--value", "negative", "--method", "strip", "--by", "AB", "--at")
    log(book, *test, ago(30))
    log(book, *test, ago(5))
    done = run("clearance", "--notebook", book, LABEL)
    assert done.returncode == 0
    assert "Clear to evaporate: vanillin, second lot" in done.stdout
    found = json.loads(run("clearance", "--notebook", book, LABEL, "--json").stdout)
    assert found["state"] == "clear"
    assert found["needed"] == []
    assert [one["by"] for one in found["tests"]] == ["AB", "AB"]


def test_bad_input_is_told_and_exit_is_two(book: str) -> None:
    done = run("clearance", "--notebook", book, "vanilin")
    assert done.returncode == 2
    assert LABEL in done.stderr
    done = run("log", "--notebook", book, "--of", LABEL, "peroxide test", "--value", "fine")
    assert done.returncode == 2
    assert "negative or positive" in done.stderr
    later = (datetime.now() + timedelta(hours=1)).isoformat(timespec="seconds")
    test = ("peroxide test", "--value", "negative", "--at", later)
    assert run("log", "--notebook", book, "--of", LABEL, *test).returncode == 2


def test_a_quench_that_is_logged_tells_the_clearance_and_never_gas_on(
    demo_notebook: Path, tmp_path: Path
) -> None:
    book = [
        "--notebook",
        shutil.copy(demo_notebook, tmp_path / "demo.sqlite"),
        "--of",
        "vanillin, second lot",
    ]
    for words in (["quench", "--value", "2 h"], ["peroxide test", "--value", "negative"]):
        told = run("log", *book, *words).stdout
        assert "Locked, do not evaporate" in told
        assert "The quench is at work until" in told
        assert "Gas on first" not in told
    assert "look" in run("log", *book, "gas on").stdout
