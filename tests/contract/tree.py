"""The tree as the contract tests read it: files, parsed modules, imports."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
SRC = ROOT / "src"
PACKAGE = "ozonewright"
HOUSE = SRC / PACKAGE
REFERENCES = HOUSE / "references"


class Module(NamedTuple):
    """One module of the package."""

    name: str
    path: Path
    tree: ast.Module

    @property
    def is_package(self) -> bool:
        return self.path.name == "__init__.py"

    def at(self, node: ast.AST) -> str:
        """Return file and line of a node, as an editor opens it."""
        return f"{shown(self.path)}:{getattr(node, 'lineno', 1)}"


class Import(NamedTuple):
    """One module that a module imports."""

    target: str
    node: ast.stmt
    inside_function: bool


def shown(path: Path) -> str:
    """Return a path as seen from the root of the project."""
    return path.relative_to(ROOT).as_posix() if path.is_relative_to(ROOT) else path.name


def planted(name: str, text: str, *, package: bool = False) -> Module:
    """Return a module that exists only in a test."""
    stem = "__init__" if package else name.rpartition(".")[2]
    return Module(name, ROOT / f"planted/{stem}.py", ast.parse(text))


@cache
def modules() -> tuple[Module, ...]:
    """Return every module of the package."""
    return tuple(_module(path) for path in sorted(HOUSE.rglob("*.py")))


def _module(path: Path) -> Module:
    parts = path.relative_to(SRC).with_suffix("").parts
    name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
    return Module(name, path, ast.parse(path.read_text(encoding="utf-8"), filename=str(path)))


def floor_names() -> frozenset[str]:
    """Return the packages and modules that stand directly in the house."""
    return frozenset(module.name.split(".")[1] for module in modules() if "." in module.name)


def imports(module: Module, known: frozenset[str]) -> Iterator[Import]:
    """Yield every import of a module, wherever it stands; `known` are the modules there are."""
    functions = (ast.FunctionDef, ast.AsyncFunctionDef, ast.Lambda)
    inside = {
        id(node)
        for function in ast.walk(module.tree)
        if isinstance(function, functions)
        for node in ast.walk(function)
        if node is not function
    }
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import | ast.ImportFrom):
            for target in _targets(node, module, known):
                yield Import(target, node, id(node) in inside)


def _targets(
    node: ast.Import | ast.ImportFrom, module: Module, known: frozenset[str]
) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
        return
    base = node.module or ""
    if node.level:
        package = module.name.split(".") if module.is_package else module.name.split(".")[:-1]
        above = package[: len(package) - (node.level - 1)]
        base = ".".join([*above, base] if base else above)
    for alias in node.names:
        # `from package import module` is an edge to the module, not only to its package
        longer = f"{base}.{alias.name}"
        yield longer if longer in known else base


def module_names() -> frozenset[str]:
    """Return the names of all modules there are."""
    return frozenset(module.name for module in modules())


def text_files(*suffixes: str) -> tuple[Path, ...]:
    """Return what people write in this project, by suffix; locks and vendored files left out."""
    folders = [ROOT / name for name in ("src", "tests", "docs", "benchmarks", "examples", ".ci")]
    found = [path for folder in folders if folder.is_dir() for path in folder.rglob("*")]
    found += ROOT.iterdir()
    return tuple(
        path
        for path in sorted(found)
        if path.is_file()
        and (path.suffix in suffixes or path.name in suffixes)
        and ".min." not in path.name
        and not {"__pycache__", "vendor"} & set(path.parts)
    )


@cache
def bibliography() -> dict[str, dict[str, object]]:
    """Return the bibliography by key; empty while there is none."""
    path = REFERENCES / "bibliography.toml"
    return tomllib.loads(path.read_text(encoding="utf-8")) if path.exists() else {}


KEY = re.compile(r"[a-z][a-z0-9_]*")


def docstring_sources(lines: list[str]) -> list[str]:
    """Return the keys of a Source section: one a line, a locator behind a comma."""
    return [line.split(",")[0].strip() for line in lines if line.strip() and line[:1] != " "]
