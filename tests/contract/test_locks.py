"""The locked packages: every line pinned and hashed, nothing of one machine in it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator

import pytest

from contract.tree import ROOT

LOCKS = ("boot", "run", "dev")
STRAY = re.compile(
    r"://|file:|/simple|^-{1,2}(?:index|extra|find|trusted|i\b|f\b|e\b)", re.MULTILINE
)
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
RUN = PROJECT["project"]["dependencies"]
GROUPS = PROJECT["dependency-groups"]


def lock(name: str) -> str:
    return (ROOT / "lock" / f"{name}.txt").read_text(encoding="utf-8")


def pins(text: str) -> set[str]:
    """Return each locked release with its condition, such as ``numpy==2.4.6 ; …``."""
    return {line.rstrip("\\ ") for line in text.splitlines() if re.match(r"[\w.-]+==", line)}


def name_of(requirement: str) -> str:
    match = re.match(r"[\w.-]+", requirement)
    assert match is not None
    return re.sub(r"[-_.]+", "-", match[0]).lower()


def faults(text: str) -> Iterator[str]:
    if STRAY.search(text):
        yield "names a registry or a path"
    for part in re.split(r"\n(?=\S)", text):
        if part.startswith("#") or not part.strip():
            continue
        if not re.match(r"[\w.-]+==", part):
            yield f"does not pin {part.splitlines()[0]}"
        elif "--hash=sha256:" not in part:
            yield f"has no hash for {part.splitlines()[0]}"


@pytest.mark.parametrize("name", LOCKS)
def test_a_lock_is_pinned_and_hashed(name: str) -> None:
    assert list(faults(lock(name))) == []


def test_the_development_lock_holds_the_runtime_lock() -> None:
    """The same versions; where only the tests need a package everywhere, its condition differs."""
    run, dev = ({pin.partition(" ;")[0] for pin in pins(lock(name))} for name in ("run", "dev"))
    assert run - dev == set()


@pytest.mark.parametrize(
    ("name", "wanted"), [("run", RUN), ("dev", [*RUN, *GROUPS["dev"]]), ("boot", GROUPS["boot"])]
)
def test_every_dependency_is_locked(name: str, wanted: list[str]) -> None:
    locked = {name_of(pin) for pin in pins(lock(name))}
    assert {name_of(requirement) for requirement in wanted} - locked == set()


def test_every_dependency_has_its_reason() -> None:
    text = (ROOT / "docs/decisions/0001-libraries.md").read_text(encoding="utf-8")
    reasons = {name_of(name) for name in re.findall(r"^\| ([\w.-]+) \|", text, flags=re.MULTILINE)}
    wanted = [*RUN, *(requirement for group in GROUPS.values() for requirement in group)]
    assert {name_of(requirement) for requirement in wanted} - reasons == set()


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("six==1.0\n", "no hash"),
        ("six>=1.0 \\\n    --hash=sha256:00\n", "does not pin"),
        ("--index-url https://registry.example\nsix==1.0 --hash=sha256:00\n", "registry"),
        ("--find-links wheels\n", "registry"),
    ],
)
def test_a_planted_fault_is_seen(text: str, fault: str) -> None:
    assert any(fault in found for found in faults(text))
