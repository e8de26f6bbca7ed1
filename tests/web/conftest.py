"""Pages of a notebook of invented runs, and pages without one."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from ozonewright.notebook import Notebook
from web.in_process import Pages, client_of, run_table


@pytest.fixture(scope="session")
def kept_runs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A notebook with three runs, one of them corrected, and a field blank; to be copied."""
    file = tmp_path_factory.mktemp("kept") / "bench.sqlite"
    with Notebook.create(file, "garden workshop (invented)") as notebook:
        notebook.add("run", run_table("C1", "240 s ± 1.5 s", "28.46 mL"))
        notebook.add("run", run_table("C2", "480 s ± 1.5 s", "56.02 mL"))
        third = notebook.add("run", run_table("C3", "120 s ± 1.5 s", "14.90 mL"))
        notebook.revise(
            third.id, run_table("C3", "120 s ± 1.5 s", "14.09 mL"), reason="typing slip"
        )
        notebook.add("run", run_table("B1", "240 s", "0.40 mL", discharge="off"))
    return file


@pytest.fixture
def pages(kept_runs: Path, tmp_path: Path) -> Iterator[Pages]:
    """Pages of a copy of those runs."""
    file = tmp_path / "bench.sqlite"
    shutil.copy(kept_runs, file)
    with client_of(file, tmp_path) as client:
        yield Pages(client, file)


@pytest.fixture
def bare(tmp_path: Path) -> Iterator[Pages]:
    """Pages without a notebook."""
    with client_of(None, tmp_path) as client:
        yield Pages(client, tmp_path / "none.sqlite")


@pytest.fixture(scope="module")
def example(demo_notebook: Path) -> Iterator[Pages]:
    """Pages of the worked example, to be read."""
    with client_of(demo_notebook, demo_notebook.parent) as client:
        yield Pages(client, demo_notebook)
