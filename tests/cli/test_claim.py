"""`ozonewright claim` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.typed import run
from ozonewright.demo.truth import OXYGEN

EXAMPLE = str(Path(__file__).parents[2] / "docs" / "examples" / "run.toml")


def test_the_answer_comes_first() -> None:
    done = run("claim", EXAMPLE, "--label", "4 g/h")
    assert done.returncode == 0
    assert "Not at this setting: 0.5343 ± 0.0036 g/h" in done.stdout.splitlines()[0]
    for words in ("97.6 ± 1.4 g/kWh", "from memory", "most that energy allows"):
        assert words in done.stdout


def test_json_has_the_promised_keys() -> None:
    found = json.loads(run("claim", EXAMPLE, "--label", "4 g/h", "--json").stdout)
    wanted = "label_g_per_h rate_g_per_h label_yield_g_per_kwh yield_g_per_kwh verdict"
    assert set(wanted.split()) <= found.keys()
    assert found["label_g_per_h"] == pytest.approx(4.0)


def test_a_setting_of_the_usual_notebook(
    demo_notebook: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("OZONEWRIGHT_NOTEBOOK", str(demo_notebook))
    done = run("claim", "--setting", OXYGEN, "--label", "4 g/h")
    assert done.stdout.startswith(f"{OXYGEN}: Not at this setting")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "nothing to hold a label against"),
        ((EXAMPLE,), "what does the label say?"),
        ((EXAMPLE, "--label", "4"), "label"),
        ((EXAMPLE, "--label", "4 g/h", "--setting", "x"), "Leave one of them out"),
    ],
)
def test_what_must_be_mended(
    words: tuple[str, ...], told: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("OZONEWRIGHT_NOTEBOOK", raising=False)
    done = run("claim", *words)
    assert done.returncode == 2
    assert told in done.stderr
