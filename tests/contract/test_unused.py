"""Nothing stands for the tests alone: the program uses its formulas, sentences and data."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator

import pytest

from contract.tree import Module, modules, planted
from ozonewright.references.tables import rows

WORDS = "ozonewright.show.words."
PHYSICS = "ozonewright.physics."
NAMED = ("hazards", "limits_procedure", "limits_gas", "drift_priors", "absorption")
"""Tables whose rows are asked for by name."""
FOR_CHECKS = {"ozonewright.physics.liquid.batch.run_one"}
"""One run by itself, the yardstick of many at once."""
CODE = re.compile(r"[a-z0-9]+(-[a-z0-9]+)+")


def names_in(tree: ast.AST) -> Iterator[str]:
    """Yield every name that is read, and what is imported under it."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Name):
            yield node.id
        elif isinstance(node, ast.Attribute):
            yield node.attr
        elif isinstance(node, ast.ImportFrom):
            yield from (alias.name for alias in node.names)


def unused_formulas(house: Iterable[Module]) -> set[str]:
    """Return the public functions of physics that nothing asks for."""
    house = tuple(house)
    asked = {name for module in house for name in names_in(module.tree)}
    return {
        f"{module.name}.{node.name}"
        for module in house
        if module.name.startswith(PHYSICS)
        for node in module.tree.body
        if isinstance(node, ast.FunctionDef) and node.name[0] != "_" and node.name not in asked
    } - FOR_CHECKS


def test_every_formula_is_used() -> None:
    assert unused_formulas(modules()) == set()


def test_a_formula_that_nothing_uses_would_be_found() -> None:
    formulas = planted(f"{PHYSICS}gas.new", "def alone(): ...\ndef asked(): ...\ndef _own(): ...")
    user = planted("ozonewright.questions.user", "from ozonewright.physics.gas.new import asked")
    assert unused_formulas([formulas, user]) == {f"{PHYSICS}gas.new.alone"}


def texts_in(tree: ast.AST) -> Iterator[str]:
    """Yield patterns of what may stand as a text: a value in a text may be anything."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield re.escape(node.value)
        elif isinstance(node, ast.JoinedStr):
            yield "".join(
                re.escape(str(part.value)) if isinstance(part, ast.Constant) else ".+"
                for part in node.values
            )


def unsaid(house: Iterable[Module]) -> set[str]:
    """Return the codes of sentences that nothing outside the words can ask for."""
    house = tuple(house)
    codes = {
        key.value
        for module in house
        if module.name.startswith(WORDS)
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Dict)
        for key in node.keys
        if isinstance(key, ast.Constant) and CODE.fullmatch(str(key.value))
    }
    asked = {
        text
        for module in house
        if not module.name.startswith(WORDS)
        for text in texts_in(module.tree)
        if "-" in text and text[:1].isalpha()
    }
    made = [re.compile(text) for text in asked if ".+" in text]
    return {
        code
        for code in codes
        if re.escape(code) not in asked and not any(one.fullmatch(code) for one in made)
    }


def test_every_sentence_can_be_said() -> None:
    assert unsaid(modules()) == set()


def test_a_sentence_that_nothing_says_would_be_found() -> None:
    words = planted(f"{WORDS}new", 'SENTENCES = {"new-said": 1, "new-made-up": 2, "new-dead": 3}')
    user = planted("ozonewright.questions.new", 'a = "new-said"; b = f"new-made-{a}"')
    assert unsaid([words, user]) == {"new-dead"}


@pytest.mark.parametrize("table", NAMED)
def test_every_row_is_asked_for(table: str) -> None:
    asked = {text for module in modules() for text in texts_in(module.tree)}
    # `_OH`: what the absorber asks for where a molecule donates a hydrogen.
    names = [row["name"].removesuffix("_OH") for row in rows(table)]
    assert [name for name in names if name not in asked and f"{name}.+" not in asked] == []
