"""Reads the docstring of a physical function, and says what it lacks.

The form is described, with a full example, in CONTRIBUTING.md.
"""

from __future__ import annotations

import ast
import inspect
import re
import tokenize
from collections.abc import Collection, Iterator
from functools import cache
from typing import NamedTuple

import pint

from contract.tree import docstring_sources

NEEDED = ("Parameters", "Returns", "Raises", "Valid", "Source")
ORDER = (*NEEDED, "Notes", "Example")
_ENTRY = re.compile(r"(\w+) : (\S.*)")
_UNIT = re.compile(r"\[([^\[\]]+)\]\.?$")
NOT_A_NUMBER = "-"
"""Stands for the unit of what is no number: a name, a choice, a function."""


class Entry(NamedTuple):
    """One parameter or returned value."""

    name: str
    words: str

    @property
    def unit(self) -> str | None:
        match = _UNIT.search(self.words)
        return match[1] if match else None


@cache
def _registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


def is_unit(text: str) -> bool:
    """Whether pint knows the unit; powers are written as in ``mol/(m2 s)``."""
    if text in ("1", NOT_A_NUMBER):
        return True
    if not re.fullmatch(r"[\w°*/() -]+", text):
        return False
    powers = re.sub(r"(?<=[A-Za-zµΩ])(-?\d+)", r"**\1", text)
    try:
        _registry().parse_units(powers)
    except (pint.errors.PintError, ValueError, TypeError, tokenize.TokenError, AssertionError):
        return False
    return True


def sections(docstring: str) -> dict[str, list[str]]:
    """Return the lines of each underlined section, in order; the summary has the empty name."""
    found: dict[str, list[str]] = {"": []}
    lines = inspect.cleandoc(docstring).splitlines()
    current, number = "", 0
    while number < len(lines):
        following = lines[number + 1] if number + 1 < len(lines) else ""
        if lines[number].strip() and following and set(following) == {"-"}:
            current = lines[number].strip()
            found[current] = []
            number += 2
            continue
        found[current].append(lines[number])
        number += 1
    return found


def entries(lines: list[str]) -> list[Entry]:
    """Return the entries of Parameters or Returns: ``name : type``, then words set in."""
    found: list[Entry] = []
    for line in lines:
        if match := _ENTRY.fullmatch(line.rstrip()):
            found.append(Entry(match[1], ""))
        elif line.strip() and found:
            words = f"{found[-1].words} {line.strip()}".strip()
            found[-1] = Entry(found[-1].name, words)
    return found


def faults(
    function: ast.FunctionDef, keys: Collection[str], errors: Collection[str]
) -> Iterator[str]:
    """Yield what a physical function lacks; `keys` of the bibliography, `errors` by name."""
    arguments = function.args
    if arguments.posonlyargs or arguments.args or arguments.vararg or arguments.kwarg:
        yield "takes arguments that are not keyword-only"
    docstring = ast.get_docstring(function)
    if not docstring:
        yield "has no docstring"
        return
    found = sections(docstring)
    if not found[""] or not found[""][0].endswith("."):
        yield "has no first sentence"
    names = [name for name in found if name]
    needed = [name for name in NEEDED if name != "Parameters" or arguments.kwonlyargs]
    yield from (f"lacks the section {name}" for name in needed if name not in names)
    yield from (f"has the unknown section {name}" for name in names if name not in ORDER)
    known = [name for name in names if name in ORDER]
    if known != sorted(known, key=ORDER.index):
        yield f"has its sections in another order than {', '.join(ORDER)}"
    yield from (f"has an empty section {name}" for name in known if not any(found[name]))
    parameters = entries(found.get("Parameters", []))
    signature = [argument.arg for argument in arguments.kwonlyargs]
    if [entry.name for entry in parameters] != signature:
        yield f"documents {[entry.name for entry in parameters]}, but takes {signature}"
    returns = entries(found.get("Returns", []))
    if "Returns" in names and not returns:
        yield "does not name what it returns"
    for entry in (*parameters, *returns):
        if entry.unit is None:
            yield f"gives no [unit] at the end of {entry.name}"
        elif not is_unit(entry.unit):
            yield f"gives {entry.name} in the unknown unit {entry.unit}"
    for key in docstring_sources(found.get("Source", [])):
        if key not in keys:
            yield f"names the source {key}, which is not in the bibliography"
    yield from _raise_faults(function, found.get("Raises", []), errors)


def _raise_faults(
    function: ast.FunctionDef, lines: list[str], errors: Collection[str]
) -> Iterator[str]:
    listed = {line.strip() for line in lines if line.strip() and line[:1] != " "}
    if listed != {"None"}:
        yield from (f"raises the unknown error {name}" for name in sorted(listed - set(errors)))
    raised = {
        node.exc.func.id
        for node in ast.walk(function)
        if isinstance(node, ast.Raise)
        and isinstance(node.exc, ast.Call)
        and isinstance(node.exc.func, ast.Name)
    }
    yield from (f"raises {name} without saying so" for name in sorted(raised - listed))
