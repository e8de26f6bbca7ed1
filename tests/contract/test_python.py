"""Every question that has a command has a name in Python too, and an example that runs."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import ozonewright as oz
from ozonewright.cli import COMMANDS
from ozonewright.python import NAMES

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "python.md").read_text(encoding="utf-8")
ELSEWHERE = {
    "clearance": "Book.clearance",
    "log": "Book.count",
    "notebook": "open_notebook",
    "report": "Book.report",
}
"""Commands whose question is asked of a notebook, and the name it has there."""
DECIDED = {"open": "serves pages", "demo": "writes files"}
"""Commands without a Python name, and why; docs/python.md says so."""


def python_name(command: str) -> str:
    return ELSEWHERE.get(command, command.replace("-", "_"))


@pytest.mark.parametrize("command", sorted(set(COMMANDS) - set(DECIDED)))
def test_every_question_has_a_python_name_that_is_documented(command: str) -> None:
    """Mend: a function in python/, its line in NAMES, in __init__, and in docs/python.md."""
    name = python_name(command)
    first, _, method = name.partition(".")
    assert first in oz.__all__, f"{command} has no name in Python"
    assert not method or hasattr(oz.Book, method)
    assert re.search(rf"`(?:{first}|\.{method or first})\(", PAGE)


def test_a_command_without_a_python_name_is_a_decision() -> None:
    assert set(DECIDED) <= set(COMMANDS)
    for command, why in DECIDED.items():
        assert f"`{command}` {why}" in PAGE


def test_names_are_listed_once_and_each_is_where_it_is_said_to_be() -> None:
    assert set(NAMES) | {"__version__"} == set(oz.__all__)
    for name, module in NAMES.items():
        assert getattr(oz, name).__module__ == f"ozonewright.python.{module}"
