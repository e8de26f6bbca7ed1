"""Every error a person can meet says how to mend it."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from contract.tree import Module, modules, planted
from ozonewright import errors
from ozonewright.errors import AppError

CLASSES = {
    name: value
    for name, value in vars(errors).items()
    if isinstance(value, type) and issubclass(value, AppError)
}
WRITES_ITS_OWN_MEND = {"Faults"}
"""It gathers errors, each of which has a mend."""


def error_names(tree: list[Module]) -> set[str]:
    """Return the names of AppError and of every class below it, wherever it is declared."""
    names = set(CLASSES)
    classes = [n for m in tree for n in ast.walk(m.tree) if isinstance(n, ast.ClassDef)]
    while True:
        below = {c.name for c in classes if {_name(base) for base in c.bases} & names}
        if below <= names:
            return names
        names |= below


def _name(node: ast.expr) -> str:
    return node.attr if isinstance(node, ast.Attribute) else getattr(node, "id", "")


def mendless(module: Module, names: set[str]) -> Iterator[str]:
    """Yield each place where an error is made without a mend, or raised as a bare class."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Raise) and node.exc is not None and _name(node.exc) in names:
            yield f"{module.at(node)}: raises a bare {_name(node.exc)}"
        if not isinstance(node, ast.Call) or _name(node.func) not in names - WRITES_ITS_OWN_MEND:
            continue
        mend = next((keyword.value for keyword in node.keywords if keyword.arg == "fix"), None)
        if mend is None:
            yield f"{module.at(node)}: {_name(node.func)} without fix"
        elif isinstance(mend, ast.Constant) and not str(mend.value or "").strip():
            yield f"{module.at(node)}: {_name(node.func)} with an empty fix"


def test_every_error_made_has_a_mend() -> None:
    names = error_names(list(modules()))
    assert [place for module in modules() for place in mendless(module, names)] == []


def test_every_error_has_a_docstring() -> None:
    names = error_names(list(modules()))
    assert [
        f"{module.at(node)}: {node.name}"
        for module in modules()
        for node in ast.walk(module.tree)
        if isinstance(node, ast.ClassDef) and node.name in names and not ast.get_docstring(node)
    ] == []


@pytest.mark.parametrize("name", sorted(set(CLASSES) - WRITES_ITS_OWN_MEND))
def test_no_error_can_be_made_without_a_mend(name: str) -> None:
    with pytest.raises((TypeError, ValueError)):
        CLASSES[name]("something is wrong")
    with pytest.raises(ValueError, match="mend"):
        CLASSES[name]("something is wrong", fix="  ")
    assert CLASSES[name]("something is wrong", fix="Mend it.").fix == "Mend it."


@pytest.mark.parametrize(
    "text",
    [
        "raise UnitError",
        "raise UnitError('x')",
        "raise UnitError('x', fix='')",
        "raise UnitError('x', fix=' ')",
        "raise UnitError('x', fix=None)",
        "raise errors.UnitError('x')",
        "found.append(UnitError('x', got='y'))",
        "class Odd(UnitError):\n    pass\nraise Odd('x')",
    ],
)
def test_a_planted_error_without_mend_is_seen(text: str) -> None:
    module = planted("ozonewright.documents.run", text)
    assert len(list(mendless(module, error_names([module])))) == 1


@pytest.mark.parametrize(
    "text",
    [
        "raise UnitError('x', fix='Do.')",
        "raise UnitError('x', fix=nearest(name, known)) from None",
        "raise Faults(found)",
        "raise ValueError",
        "raise",
    ],
)
def test_an_error_with_a_mend_passes(text: str) -> None:
    module = planted("ozonewright.documents.run", text)
    assert list(mendless(module, error_names([module]))) == []
