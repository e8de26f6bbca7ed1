"""Every figure names its source and evidence, and every source is used."""

from __future__ import annotations

import ast
import csv
import tomllib
from collections import Counter
from collections.abc import Collection, Iterator
from pathlib import Path

import pytest

from contract.docstrings import sections
from contract.tree import (
    KEY,
    REFERENCES,
    Module,
    bibliography,
    docstring_sources,
    modules,
    planted,
    shown,
)

EVIDENCE = {"published", "library", "common practice", "memory", "invented"}
WITHOUT_SOURCE = {"common practice", "memory", "invented"}
"""Grades that may stand without a source; the locator then says "no source"."""
NEEDED = {"source", "locator", "evidence"}


def tables() -> list[Path]:
    return sorted(REFERENCES.rglob("*.csv"))


def read_table(path: Path) -> list[list[str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file, strict=True))


def table_faults(lines: list[list[str]], keys: Collection[str]) -> Iterator[str]:
    """Yield what a table lacks: names, units, then rows that say where they come from."""
    if len(lines) < 3:
        yield "needs names in line 1, units in line 2, and a row"
        return
    names, units, *rows = lines
    if missing := NEEDED - set(names):
        yield f"has no column {', '.join(sorted(missing))}"
        return
    yield from (f"line 1: {name!r} is no column name" for name in names if not KEY.fullmatch(name))
    yield from (f"has the column {name} twice" for name, n in Counter(names).items() if n > 1)
    if len(units) != len(names) or not all(unit.strip() for unit in units):
        yield "line 2: a unit for every column, or - where there is none"
    for number, cells in enumerate(rows, 3):
        if len(cells) != len(names):
            yield f"line {number}: {len(cells)} cells for {len(names)} columns"
            continue
        row = dict(zip(names, cells, strict=True))
        if not row["source"]:
            if row["evidence"] not in WITHOUT_SOURCE or row["locator"] != "no source":
                yield f"line {number}: no source, and neither grade nor locator says so"
        elif row["source"] not in keys:
            yield f"line {number}: unknown source {row['source']!r}"
        if row["evidence"] not in EVIDENCE:
            yield f"line {number}: unknown evidence {row['evidence']!r}"
        if not row["locator"].strip():
            yield f"line {number}: no locator"


def keys_in_tables() -> Iterator[tuple[str, str]]:
    for path in tables():
        names, _, *rows = read_table(path)
        column = names.index("source")
        yield from ((row[column], shown(path)) for row in rows if row[column])


def cases() -> Iterator[tuple[dict[str, object], str]]:
    for path in sorted(REFERENCES.rglob("cases/*.toml")):
        for case in tomllib.loads(path.read_text(encoding="utf-8")).get("case", []):
            yield case, f"{shown(path)} {case.get('id', '?')}"


def keys_in_cases() -> Iterator[tuple[str, str]]:
    for case, place in cases():
        yield str(case.get("source", "")), place


def keys_in_docstrings(module: Module) -> Iterator[tuple[str, str]]:
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    for node in ast.walk(module.tree):
        if isinstance(node, documented) and (text := ast.get_docstring(node)):
            for key in docstring_sources(sections(text).get("Source", [])):
                yield key, module.at(node)


def keys_in_code(module: Module, keys: Collection[str]) -> Iterator[str]:
    """Yield the keys that the code itself names, such as in the sources of a result."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in keys:
            yield node.value


def used() -> list[tuple[str, str]]:
    in_docstrings = [entry for module in modules() for entry in keys_in_docstrings(module)]
    return [*keys_in_tables(), *keys_in_cases(), *in_docstrings]


def test_every_key_used_is_in_the_bibliography() -> None:
    assert [f"{place}: {key}" for key, place in used() if key not in bibliography()] == []


def test_every_source_is_used() -> None:
    named = {key for key, _ in used()}
    named |= {key for module in modules() for key in keys_in_code(module, bibliography())}
    assert set(bibliography()) - named == set()


def test_keys_are_well_formed() -> None:
    assert [key for key in bibliography() if not KEY.fullmatch(key)] == []


def test_every_source_says_what_it_is() -> None:
    needed = ("authors", "title", "where", "read")
    assert [
        f"{key}: no {name}" for key, entry in bibliography().items() for name in needed
        if not str(entry.get(name, "")).strip()
    ] == []  # fmt: skip


@pytest.mark.parametrize("number", ["doi", "isbn"])
def test_no_number_stands_twice(number: str) -> None:
    # chapters of one book share its ISBN, so they share one entry and differ in the locator
    given = [str(entry[number]).lower() for entry in bibliography().values() if entry.get(number)]
    assert [value for value, count in Counter(given).items() if count > 1] == []


@pytest.mark.parametrize("path", tables(), ids=lambda path: path.stem)
def test_tables_say_where_each_row_comes_from(path: Path) -> None:
    assert list(table_faults(read_table(path), bibliography())) == []


def test_cases_say_where_they_come_from() -> None:
    assert [
        f"{place}: no {name}" for case, place in cases()
        for name in ("source", "locator", "evidence", "why")
        if not str(case.get(name, "")).strip()
    ] == []  # fmt: skip
    assert [place for case, place in cases() if case["evidence"] not in EVIDENCE] == []


GOOD = [
    ["name", "value", "source", "locator", "evidence"],
    ["-", "K", "-", "-", "-"],
    ["boiling", "373.1", "author_1950", "table 2", "published"],
]


def test_a_good_table_passes() -> None:
    assert list(table_faults(GOOD, {"author_1950"})) == []


def test_a_row_may_say_that_it_has_no_source() -> None:
    row = ["rest", "3", "", "no source", "common practice"]
    assert list(table_faults([*GOOD, row], {"author_1950"})) == []


@pytest.mark.parametrize(
    ("line", "column", "cell", "fault"),
    [
        (2, 2, "nobody_1950", "unknown source"),
        (2, 2, "", "no source"),
        (2, 4, "hearsay", "unknown evidence"),
        (2, 3, " ", "no locator"),
        (1, 1, "", "a unit for every column"),
        (0, 3, "place", "no column locator"),
        (0, 1, "name", "twice"),
        (0, 1, "boiling point / K", "no column name"),
    ],
)
def test_a_planted_fault_of_a_table_is_seen(line: int, column: int, cell: str, fault: str) -> None:
    lines = [list(cells) for cells in GOOD]
    lines[line][column] = cell
    assert any(fault in found for found in table_faults(lines, {"author_1950"}))


def test_a_ragged_or_empty_table_is_seen() -> None:
    assert any("cells for" in f for f in table_faults([*GOOD, ["one"]], {"author_1950"}))
    assert list(table_faults(GOOD[:2], {"author_1950"}))


def test_a_planted_key_is_found() -> None:
    text = 'def f():\n    """One.\n\n    Source\n    ------\n    nobody_1950, p. 3\n    """\n'
    module = planted("ozonewright.physics.gas.flow", text + 'USED = ("author_1950",)\n')
    assert [key for key, _ in keys_in_docstrings(module)] == ["nobody_1950"]
    assert list(keys_in_code(module, {"author_1950"})) == ["author_1950"]
