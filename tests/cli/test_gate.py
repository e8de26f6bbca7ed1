"""`ozonewright gate` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import tomlkit
from click.testing import CliRunner

from ozonewright.cli.gate import command
from unit.gate_world import world


def files(folder: Path, *, tail: bool = True) -> list[str]:
    """Write the good world, and return the options that name it."""
    table = world()
    if not tail:
        table["rig"]["part"] = [one for one in table["rig"]["part"] if one["name"] != "tail"]
    options = []
    for name, document in table.items():
        file = folder / f"{name}.toml"
        file.write_text(tomlkit.dumps(document), encoding="utf-8")
        options += [f"--{name}", str(file)]
    return options


def test_go_comes_first_with_the_order_of_work(tmp_path: Path) -> None:
    text = CliRunner().invoke(command, files(tmp_path)).output
    assert text.startswith("□ Go: ")
    assert "In this order" in text
    assert "If something goes wrong" in text


def test_stop_says_why_and_what_mends_it(tmp_path: Path) -> None:
    text = CliRunner().invoke(command, files(tmp_path, tail=False)).output
    assert text.startswith("■ Stop: ")
    assert "Put a tail bottle" in " ".join(text.split())


def test_json_and_what_is_typed_beside(tmp_path: Path) -> None:
    done = CliRunner().invoke(command, [*files(tmp_path), "--slip", "5 %", "--json"])
    found = json.loads(done.output)
    assert found["verdict"] == "go"
    assert {"checks", "unknowns"} <= found.keys()


def test_a_checklist_without_answers_is_one_short_list(tmp_path: Path) -> None:
    options = files(tmp_path)
    table = world()["rig"]
    table["checklist"] = {}
    (tmp_path / "rig.toml").write_text(tomlkit.dumps(table), encoding="utf-8")
    text = CliRunner().invoke(command, options).output
    assert "Stop until answered in the rig's [checklist], true or false" in text
    assert "■ earthed: Case, supply and every metal part are earthed" in text
