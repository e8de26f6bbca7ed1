"""Pages made from the code are fresh, and the documents shown in the docs work as printed."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from ozonewright.bench.output import outputs
from ozonewright.cli import COMMANDS

ROOT = Path(__file__).resolve().parents[2]
BLOCK = re.compile(r"```toml\n(.*?)```", re.DOTALL)


REAL = re.compile(r"<!-- real output of: ozonewright ([^>]*?) -->\n```\n(.*?)```", re.DOTALL)


def real_outputs() -> list[tuple[str, str]]:
    return REAL.findall((ROOT / "README.md").read_text(encoding="utf-8"))


def test_the_readme_shows_real_output() -> None:
    assert real_outputs()


@pytest.mark.parametrize(("command", "shown"), real_outputs())
def test_output_in_the_readme_is_what_the_command_prints(command: str, shown: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "ozonewright", *shlex.split(command)],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert done.stdout == shown, "put the new output into README.md"


def test_made_pages_are_fresh() -> None:
    done = subprocess.run(
        [sys.executable, str(ROOT / "docs" / "make.py"), "--check"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, f"{done.stdout}run: python docs/make.py"


def blocks(name: str) -> list[str]:
    return BLOCK.findall((ROOT / name).read_text(encoding="utf-8"))


@pytest.mark.parametrize("text", [text for text in blocks("docs/documents.md") if "[run]" in text])
def test_run_documents_in_the_docs_work(text: str) -> None:
    (found,) = outputs([tomllib.loads(text)])
    assert found.rate is not None


def text_of(*names: Path) -> str:
    return " ".join(name.read_text(encoding="utf-8") for name in names)


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_is_in_the_readme_the_docs_and_the_changelog(command: str) -> None:
    asked = re.compile(rf"(ozonewright |`|/){command}\b")
    for text in (
        text_of(ROOT / "README.md"),
        text_of(*(ROOT / "docs").glob("*.md")),
        text_of(ROOT / "CHANGELOG.md"),
    ):
        assert asked.search(text)


def test_every_page_of_the_docs_is_reached_from_the_readme_once() -> None:
    linked = re.findall(r"\]\(docs/([a-z-]+\.md)\)", text_of(ROOT / "README.md"))
    assert sorted(linked) == sorted(page.name for page in (ROOT / "docs").glob("*.md"))
