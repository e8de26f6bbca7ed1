"""Settings that every test shares."""

from __future__ import annotations

import os

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
