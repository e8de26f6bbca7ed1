"""What a short command must not load: time to a first answer (figures in benchmarks/README.md)."""

from __future__ import annotations

import subprocess
import sys

import pytest

HEAVY = {"scipy", "matplotlib", "jinja2", "starlette", "uvicorn", "pydantic", "tomlkit", "sqlite3",
         "pint", "rdkit", "uncertainties"}  # fmt: skip


def loaded(module: str) -> set[str]:
    """Return the names of all modules that a fresh process has after one import."""
    script = f"import sys, {module}; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    return set(done.stdout.split())


@pytest.mark.parametrize("command", ["output", "check"])
def test_a_short_command_loads_nothing_heavy(command: str) -> None:
    assert loaded(f"ozonewright.cli.{command}") & HEAVY == set()


def test_help_loads_no_command_and_no_arrays() -> None:
    found = loaded("ozonewright.cli")
    assert found & {*HEAVY, "numpy"} == set()
    ours = {name for name in found if name.startswith("ozonewright.")}
    assert ours == {"ozonewright.cli", "ozonewright.errors"}


def test_the_package_itself_loads_nothing() -> None:
    found = loaded("ozonewright")
    assert {name for name in found if name.startswith("ozonewright")} == {"ozonewright"}
    assert found & {*HEAVY, "numpy"} == set()
