"""`ozonewright compare` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.typed import run
from ozonewright.demo.truth import AIR, OXYGEN


def test_two_settings_of_the_notebook(demo_notebook: Path) -> None:
    done = run("compare", "--notebook", str(demo_notebook), OXYGEN, AIR)
    assert done.returncode == 0
    assert done.stdout.startswith(f"{OXYGEN} gives 3.18")
    for words in ("What differs", "flow: 0.8 L/min against 2 L/min", "Working", "alternated"):
        assert words in done.stdout


def test_json_has_the_promised_keys(demo_notebook: Path) -> None:
    done = run("compare", "--notebook", str(demo_notebook), OXYGEN, AIR, "--json")
    found = json.loads(done.stdout)
    # What is true of the example: 0.620 and 0.190 g/h.
    low, high = found["interval_ratio"]
    assert low < found["ratio"] < high
    assert low < 0.620 / 0.190 < high
    assert {"feed", "flow"} <= {row["factor"] for row in found["differs"]}


def test_files_of_two_settings_and_the_usual_notebook(
    demo_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = [str(demo_folder / "runs" / f"{label}.toml") for label in ("P1", "P2", "A1", "A2")]
    alone = run("compare", *files)
    monkeypatch.setenv("OZONEWRIGHT_NOTEBOOK", str(demo_folder / "demo.sqlite"))
    assert run("compare", *files).stdout == alone.stdout
    assert run("compare", AIR, OXYGEN).stdout.startswith(AIR)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((AIR,), "a comparison needs two settings"),
        ((AIR, AIR), "not compared with itself"),
        ((AIR, "pump air 2 L/min"), AIR),
        ((AIR, OXYGEN, "--difference", "5"), "difference"),
    ],
)
def test_what_must_be_mended(demo_notebook: Path, words: tuple[str, ...], told: str) -> None:
    done = run("compare", "--notebook", str(demo_notebook), *words)
    assert done.returncode == 2
    assert told in done.stderr


def test_nothing_to_compare(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("OZONEWRIGHT_NOTEBOOK", raising=False)
    assert "nothing to compare" in run("compare").stderr


def test_one_run_each_has_no_degrees_of_freedom_and_is_still_json(tmp_path: Path) -> None:
    """Infinite degrees of freedom are no number of JSON: they are left out, not a trace."""
    for name, rate in (("a", "0.62 g/h ± 2 %"), ("b", "0.20 g/h ± 2 %")):
        text = f'[run]\nsetting = "{name}"\non_time = "4 min"\nrate = "{rate}"\n'
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    done = run("compare", str(tmp_path / "a.toml"), str(tmp_path / "b.toml"), "--json")
    assert done.returncode == 0
    assert json.loads(done.stdout)["degrees_of_freedom"] is None
