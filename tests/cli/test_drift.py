"""`ozonewright drift` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from ozonewright.cli.drift import command
from ozonewright.cli.notebook import command as notebook

STORY = ["--points", "2 min: 0.92 g/h", "4 min: 0.81 g/h", "8 min: 0.76 g/h"]
TABLE = """label,started,on time / min,collected / mg,u collected / mg,discharge
A,2026-05-09 10:00,2,30.7,0.2,on
B,2026-05-09 10:40,4,54.0,0.3,on
C,2026-05-09 11:20,8,101.3,0.5,on
D,2026-05-09 12:00,4,7.0,0.2,off
"""


def run(*words: str) -> Result:
    return CliRunner().invoke(command, words)


def test_points_need_the_option_once() -> None:
    done = run(*STORY)
    assert done.exit_code == 0
    assert done.output.startswith("not determined. A line with a surplus of about 7 mg")


def test_json_has_the_promised_keys() -> None:
    found = json.loads(run(*STORY, "--json").output)
    wanted = "points fit determined verdict causes groups next assumed unknowns notes"
    assert set(wanted.split()) <= found.keys()
    fit = "intercept_mg u_intercept_mg slope_mg_per_min u_slope_mg_per_min"
    assert set(fit.split()) <= found["fit"].keys()
    assert set(["cause", "group", "probability", "status", "implied"]) <= found["causes"][0].keys()
    assert {"group", "probability"} <= found["groups"][0].keys()
    row = "what start on_time_s discharge bits minutes titre_ml_by_cause decide"
    assert set(row.split()) <= found["next"][0].keys()
    assert (found["determined"], found["verdict"]) == (False, None)
    assert all(isinstance(text, str) for text in found["assumed"])


def test_a_table_with_its_field_blank(tmp_path: Path) -> None:
    path = tmp_path / "runs.csv"
    path.write_text(TABLE, encoding="utf-8")
    found = json.loads(run("--table", str(path), "--json").output)
    assert found["verdict"] == "blank-surplus"
    assert found["threshold"] == 0.9
    assert "run.started" not in found["unknowns"]


def test_causes_are_told_in_words_and_the_field_blank_is_explained(tmp_path: Path) -> None:
    path = tmp_path / "runs.csv"
    path.write_text(TABLE, encoding="utf-8")
    text = run("--table", str(path)).output
    assert "a blank (the same surplus in every run): fits" in text
    assert "blank-surplus" not in text
    assert "is not taken off." in text
    assert max(map(len, text.splitlines())) <= 80


def test_a_notebook_and_files_answer_alike(tmp_path: Path) -> None:
    path, book = tmp_path / "runs.csv", tmp_path / "b.sqlite"
    path.write_text(TABLE.replace("label,", "label,setting,").replace(",2026", ",S,2026"), "utf-8")
    assert CliRunner().invoke(notebook, ["new", str(book)]).exit_code == 0
    added = CliRunner().invoke(notebook, ["add", "--notebook", str(book), str(path)])
    assert added.exit_code == 0, added.output
    kept = run("--notebook", str(book), "--setting", "S", "--json")
    assert json.loads(kept.output) == json.loads(run("--table", str(path), "--json").output)
    unknown = run("--notebook", str(book), "--setting", "T")
    assert "no run of this setting" in str(unknown.exception)


def test_a_file_of_runs(tmp_path: Path) -> None:
    path = tmp_path / "runs.toml"
    each = '[[run]]\non_time = "{} min"\nrate = "{} g/h"\n'
    pairs = [(2, 0.92), (4, 0.81), (8, 0.76)]
    path.write_text("".join(each.format(*pair) for pair in pairs), encoding="utf-8")
    assert json.loads(run(str(path), "--json").output) == json.loads(run(*STORY, "--json").output)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "no runs are given"),
        (("--table", "t.csv", *STORY), "runs from two places"),
        (("--table", "t.csv", "--field-blank", "8 min: 2 mg"), "--field-blank goes with --points"),
        (("--notebook", "b.sqlite"), "no setting is named"),
        (("--points", "2 min 0.92 g/h"), "a point is an on-time and what it gave"),
        ((*STORY, "--flow", "1 mL"), "flow"),
    ],
)
def test_what_must_be_mended_is_told(words: tuple[str, ...], told: str) -> None:
    assert told in str(run(*words).exception)


def test_the_notebook_of_the_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("OZONEWRIGHT_NOTEBOOK", str(tmp_path / "none.sqlite"))
    assert "no setting is named" in str(run().exception)
