"""`ozonewright recipe` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from ozonewright.cli.recipe import command

BASIC = ["--output", "0.6 g/h", "--titrant", "0.05 mol/L", "--burette", "50 mL"]


def test_the_answer_comes_first() -> None:
    done = CliRunner().invoke(command, BASIC)
    assert done.exit_code == 0
    assert done.output.startswith("2 min 10 s of gas; expect about 18.1 ± 1.7 mL")


def test_json_has_the_promised_keys() -> None:
    found = json.loads(CliRunner().invoke(command, [*BASIC, "--json"]).output)
    wanted = "on_time_min titre_ml iodide_g volume_ml acid_mmol iodide_ratio notes"
    assert set(wanted.split()) <= found.keys()


def test_the_sheet_is_written(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.html"
    assert CliRunner().invoke(command, [*BASIC, "--sheet", str(sheet)]).exit_code == 0
    assert sheet.read_text(encoding="utf-8").startswith("<!doctype html>")


def test_a_sheet_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    done = CliRunner().invoke(command, [*BASIC, "--sheet", str(tmp_path / "no" / "sheet.html")])
    assert "can't be written" in str(done.exception)
