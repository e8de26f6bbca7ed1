"""Settings that every test shares."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

# Same examples on every run, and no deadline: a busy machine is no fault of the code.
# HYPOTHESIS_PROFILE=explore draws new examples.
settings.register_profile("house", deadline=None, derandomize=True)
settings.register_profile("explore", deadline=None, max_examples=2000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))


@pytest.fixture(autouse=True)
def no_notebook_of_the_person(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep the notebook that the person works with out of every test."""
    monkeypatch.delenv("OZONEWRIGHT_NOTEBOOK", raising=False)


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The worked example with its notebook, to be read; who writes takes a copy."""
    # Read here, for it takes a second that most tests need not wait for.
    from ozonewright.demo import keep, reaction_files, rig_files, room_files, run_files, store

    folder = tmp_path_factory.mktemp("demo")
    store(folder, run_files() | rig_files() | room_files() | reaction_files())
    keep(folder)
    return folder


@pytest.fixture(scope="session")
def demo_notebook(demo_folder: Path) -> Path:
    """The notebook of the worked example, to be read."""
    return demo_folder / "demo.sqlite"
