"""`ozonewright gate` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import tomlkit
from click.testing import CliRunner

from ozonewright.cli.demo import command as demo
from ozonewright.cli.gate import command
from ozonewright.errors import MissingValue
from unit.gate_world import world

DEMO = {
    "rig": "rigs/workshop.toml",
    "room": "rooms/workshop.toml",
    "reaction": "reactions/vanillin.toml",
}


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


def test_of_a_notebook_the_reaction_brings_its_rig_and_room(tmp_path: Path) -> None:
    CliRunner().invoke(demo, [str(tmp_path)])
    book = ["--notebook", str(tmp_path / "demo.sqlite")]
    done = CliRunner().invoke(command, [*book, "--reaction", "vanillin, second lot"])
    assert "rig workshop, room workshop, reaction vanillin, second lot" in done.output
    # What the demo's checklist leaves open, and nothing else, stands between it and a go.
    open_still = {line.split()[1].rstrip(":") for line in done.output.splitlines() if ": " in line}
    assert {"residual_current_device", "no_spark", "no_acetone", "shielded"} <= open_still
    assert done.output.startswith("■ Stop: 3 stop, 2 fix, ")
    files = [f"--{kind}={tmp_path / folder}" for kind, folder in DEMO.items()]
    assert CliRunner().invoke(command, [*book, *files]).output == done.output


def test_a_trap_nobody_ruled_out_is_told_as_a_hazard_and_asked_once(tmp_path: Path) -> None:
    options = files(tmp_path)
    table = world()["rig"]
    del table["checklist"]["no_cold_trap"]
    (tmp_path / "rig.toml").write_text(tomlkit.dumps(table), encoding="utf-8")
    text = CliRunner().invoke(command, options).output
    stop, asked = text.split("until answered")[0], text.split("until answered")[1]
    assert "■ condensed ozone: At −41" in stop
    assert asked.count("no_cold_trap:") == 1
    assert "Answer one question of the checklist: that would settle the rest." in text


def test_without_rig_or_notebook_it_says_what_to_name() -> None:
    fault = CliRunner().invoke(command, []).exception
    assert isinstance(fault, MissingValue)
    assert "--rig RIG.toml" in fault.fix
