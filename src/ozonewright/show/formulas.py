"""The formulas that a question uses, from their own docstrings."""

from __future__ import annotations

import ast
import inspect
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from importlib import import_module
from pkgutil import walk_packages
from types import ModuleType

from ozonewright import questions

HEADINGS = ("Parameters", "Returns", "Raises", "Valid", "Source", "Notes", "Example")
PHYSICS = "ozonewright.physics."
LONG = 120
"""Letters up to which code is told where the text beside it gives no equation."""


@dataclass(frozen=True, slots=True)
class Formula:
    """One formula in words."""

    name: str
    gives: str
    equation: str
    valid: str
    source: str


def sections(docstring: str) -> dict[str, str]:
    """Split a docstring into its summary and its underlined sections."""
    found: dict[str, str] = {}
    name, lines = "Summary", list[str]()
    rows = inspect.cleandoc(docstring).splitlines()
    for place, row in enumerate(rows):
        following = rows[place + 1] if place + 1 < len(rows) else ""
        if row in HEADINGS and set(following) == {"-"}:
            found[name], name, lines = "\n".join(lines).strip(), row, []
        elif not (set(row) == {"-"} and place and rows[place - 1] in HEADINGS):
            lines.append(row)
    return found | {name: "\n".join(lines).strip()}


def formulas_of(asked: Iterable[str]) -> tuple[Formula, ...]:
    """Return the formulas that the rooms of these questions take from physics."""
    found = {
        f"{item.__module__}.{item.__name__}": item
        for name in dict.fromkeys(asked)
        for module in _room(name)
        for item in _physics_in(module)
    }
    return tuple(_formula(name, item) for name, item in sorted(found.items()))


def _room(name: str) -> Iterator[ModuleType]:
    base = f"{questions.__name__}.{name}"
    package = import_module(base)
    yield package
    for module in walk_packages(package.__path__, f"{base}."):
        yield import_module(module.name)


def _physics_in(module: ModuleType) -> Iterator[Callable[..., object]]:
    for item in vars(module).values():
        if inspect.isfunction(item) and item.__module__.startswith(PHYSICS):
            yield item


def body(function: Callable[..., object]) -> list[str]:
    """Return the statements of a function without its docstring: the formula itself."""
    tree = ast.parse(inspect.getsource(function)).body[0]
    assert isinstance(tree, ast.FunctionDef)
    return [ast.unparse(statement) for statement in tree.body[1:]]


def _code(function: Callable[..., object]) -> str:
    """Return a formula that is one expression, as it stands in the code, or nothing."""
    lines = body(function)
    return lines[0].removeprefix("return ") if len(lines) == 1 and len(lines[0]) < LONG else ""


def _formula(name: str, item: Callable[..., object]) -> Formula:
    parts = sections(item.__doc__ or "")
    gives, equation, valid, source = (
        " ".join(parts.get(head, "").split()) for head in ("Summary", "Notes", "Valid", "Source")
    )
    return Formula(name.removeprefix(PHYSICS), gives, equation or _code(item), valid, source)
