"""Smells that a machine can find: see "What a review rejects" in CONTRIBUTING.md."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from contract.tree import PACKAGE, Module, modules, planted, shown, text_files

LINES = 500
FACTORS = (60, 3600, 86400, 1000)
WRITTEN = (".py", ".md", ".toml", ".html", ".css", ".js", ".typ", ".yml", "Makefile", "run")
MADE = ("methods.md", "agreement.md", "sources.md")
"""Pages of docs/ that are written from the code; they grow with it."""
MACHINE_PATH = re.compile(
    r"(?<![\w./:~-])(?:/(?:home|root|tmp|work|opt|Users|mnt|farm|srv)/\w|[A-Z]:\\\\?(?:Users|Program|Windows))"
)
LATER = re.compile(
    r"\b(?:" + "|".join(("TO" + "DO", "FIX" + "ME", "XX" + "X")) + r")\b(?!\s*\(#\d+\))"
)
ON_HAND = (f"{PACKAGE}.units", f"{PACKAGE}.references")
"""Where factors and constants are at home."""


def factor_faults(module: Module) -> Iterator[str]:
    """Yield conversion factors and constants of nature outside their home."""
    if any(f"{module.name}.".startswith(f"{home}.") for home in ON_HAND):
        return
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Constant) and _is_constant_of_nature(node.value):
            yield f"{module.at(node)}: {node.value} has a name in references.constants"
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mult | ast.Div):
            for side, other in ((node.left, node.right), (node.right, node.left)):
                if isinstance(side, ast.Constant) and side.value in FACTORS and not _named(other):
                    yield f"{module.at(node)}: a factor of {side.value} belongs to units"


def _named(node: ast.expr) -> bool:
    """Whether this is a unit by name, as in ``60.0 * SECOND``: so many of it, no conversion."""
    if isinstance(node, ast.Call):
        return getattr(node.func, "id", "") == "size"
    return isinstance(node, ast.Name) and node.id.isupper() and len(node.id) > 1


def _is_constant_of_nature(value: object) -> bool:
    return isinstance(value, float) and (value == 273.15 or 8.313 < value < 8.316)


def _raises_again(handler: ast.ExceptHandler) -> bool:
    last = handler.body[-1]
    return isinstance(last, ast.Raise) and last.exc is None


def broad_faults(module: Module) -> Iterator[str]:
    """Yield handlers that swallow what they can't know; one that raises it again may tidy up."""
    for node in ast.walk(module.tree):
        if not isinstance(node, ast.ExceptHandler) or _raises_again(node):
            continue
        caught = node.type.elts if isinstance(node.type, ast.Tuple) else [node.type]
        for kind in caught:
            if kind is None or getattr(kind, "id", "") in ("Exception", "BaseException"):
                yield f"{module.at(node)}: catches everything"


def line_faults(text: str) -> Iterator[str]:
    """Yield lines that hold a path of one machine, or a promise without an issue number."""
    for number, line in enumerate(text.splitlines(), 1):
        if MACHINE_PATH.search(line):
            yield f"{number}: a path of one machine"
        if LATER.search(line):
            yield f"{number}: a promise without an issue number, as in (#12)"


def mine(path: Path) -> bool:
    return path == Path(__file__).resolve()


def test_no_file_is_too_long() -> None:
    written = [path for path in text_files(*WRITTEN) if "references" not in path.parts]
    written = [path for path in written if path.name not in MADE]
    lengths = {shown(p): len(p.read_text(encoding="utf-8").splitlines()) for p in written}
    assert {name: lines for name, lines in lengths.items() if lines > LINES} == {}


def test_factors_and_constants_are_at_home() -> None:
    assert [fault for module in modules() for fault in factor_faults(module)] == []


def test_nothing_catches_everything() -> None:
    assert [fault for module in modules() for fault in broad_faults(module)] == []


def test_no_machine_path_and_no_loose_promise() -> None:
    found = [
        f"{shown(path)}:{fault}"
        for path in text_files(*WRITTEN, ".csv", ".txt")
        if not mine(path)
        for fault in line_faults(path.read_text(encoding="utf-8"))
    ]
    assert found == []


@pytest.mark.parametrize(
    "text",
    ["x = 8.314", "x = 8.314462618 * T", "x = t + 273.15", "x = m / 1000", "x = m / 1e3",
     "x = 60 * t", "x = t * 60.0", "x = 3600.0 * t", "def f(T=273.15): ..."],
)  # fmt: skip
def test_a_planted_factor_is_seen(text: str) -> None:
    assert list(factor_faults(planted("ozonewright.physics.gas.flow", text)))
    assert not list(factor_faults(planted("ozonewright.units.table", text)))


@pytest.mark.parametrize(
    "text", ["x = 273.16", "x = n * 100", "x = 60 + t", "y = range(1000)", "x = 60.0 * SECOND"]
)
def test_a_plain_number_passes(text: str) -> None:
    assert not list(factor_faults(planted("ozonewright.physics.gas.flow", text)))


@pytest.mark.parametrize(
    "handler", ["except Exception:", "except:", "except (OSError, BaseException) as e:"]
)
def test_a_planted_broad_handler_is_seen(handler: str) -> None:
    text = f"try:\n    pass\n{handler}\n    pass"
    assert list(broad_faults(planted("ozonewright.bench", text)))
    assert not list(
        broad_faults(planted("ozonewright.bench", text.replace(handler, "except OSError:")))
    )


@pytest.mark.parametrize(
    "line", ["open('/home/me/x')", "at /tmp/run", r"C:\Users\me", "# TO" + "DO later", "(/root/a)"]
)
def test_a_planted_line_is_seen(line: str) -> None:
    assert list(line_faults(line))


@pytest.mark.parametrize(
    "line",
    ["mol/work/h", "see docs/home/x", "https://example.org/home/x", "# TO" + "DO (#12): later"],
)
def test_a_plain_line_passes(line: str) -> None:
    assert not list(line_faults(line))
