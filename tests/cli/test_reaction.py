"""`ozonewright reaction` as a person types it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from cli.typed import run

EXAMPLE = Path(__file__).parents[2] / "docs" / "examples" / "reaction.toml"


def test_the_answer_comes_first() -> None:
    done = run("reaction", str(EXAMPLE))
    assert done.returncode == 0
    # By hand: 10.0 mmol at 0.62 g/h and 88 % are 52.8 min, 47 to 60 with 95 %.
    first = done.stdout.partition("\n")[0]
    found = re.fullmatch(
        r"52\.8 min \((\S+) to (\S+)\) of on-time; look from 42; stop by 58 min", first
    )
    assert found
    assert [round(float(end)) for end in found.groups()] == [47, 60]
    assert "1.52 g (10.0 mmol)  C8H8O3" in done.stdout


def test_json_keeps_the_contract() -> None:
    found = json.loads(run("reaction", str(EXAMPLE), "--json").stdout)
    wanted = (
        "substrate sites ozone_demand_mmol products on_time_min interval_on_time_min look_from_min "
        "stop_by_min clock_time_min oxygen_nl heat_w coolant_dry_ice_g tail_iodide_mmol quench "
        "notes unknowns"
    )
    assert set(wanted.split()) <= found.keys()
    assert {"smiles", "formula", "molar_mass_g_per_mol", "mmol"} <= found["substrate"].keys()
    site = {"kind", "count", "rate_constant_l_per_mol_s", "evidence"}
    assert site <= found["sites"][0].keys()
    assert {"smiles", "formula", "mass_g", "role"} <= found["products"][0].keys()
    assert {"reagent", "mmol", "mass_g"} <= found["quench"][0].keys()


def test_a_rig_gives_simulated_marks(tmp_path: Path) -> None:
    rig = tmp_path / "rig.toml"
    rig.write_text(RIG, encoding="utf-8")
    lot = tmp_path / "lot.toml"
    lot.write_text(f'{EXAMPLE.read_text("utf-8")}[gas]\nfeed = "oxygen"\nflow = "0.80 NL/min"\n')
    found = json.loads(run("reaction", str(lot), "--rig", str(rig), "--json").stdout)
    assert found["simulated"] == "bench"
    assert found["look_from_by_rule_min"] == pytest.approx(42.2, abs=0.2)
    assert found["stop_by_by_rule_min"] == pytest.approx(58.0, abs=0.2)
    assert found["look_from_min"] != found["look_from_by_rule_min"]
    assert 0.0 < found["cost_of_a_minute_late_percent"] < found["loss_per_minute_up_to_percent"]
    assert {one["sign"] for one in found["signs"]} == {"off-gas", "blue"}
    without = run("reaction", str(lot))
    assert "none is given (--notebook, or --rig FILE)" in " ".join(without.stdout.split())
    missing = run("reaction", str(lot), "--rig", str(tmp_path / "no.toml"))
    assert missing.returncode == 2


RIG = """
[rig]
label = "bench"
ambient = { temperature = "21 °C", pressure = "101.0 kPa" }
[[part]]
name = "stone"
kind = "sparger"
form = "stone"
pore = "100 µm"
[[part]]
name = "flask"
kind = "bottle"
role = "flask"
liquid = "water"
volume = "100 mL"
depth = "8 cm"
"""


def test_the_sheet_is_written(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.html"
    assert run("reaction", str(EXAMPLE), "--sheet", str(sheet)).returncode == 0
    assert sheet.read_text(encoding="utf-8").startswith("<!doctype html>")
    done = run("reaction", str(EXAMPLE), "--sheet", str(tmp_path / "no" / "sheet.html"))
    assert done.returncode == 2
    assert "can't be written" in done.stderr


def test_a_bad_structure_is_told_with_its_place(tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    text = EXAMPLE.read_text("utf-8").replace("C/C=C/c1ccc(O)c(OC)c1", "C=C(")
    bad.write_text(text, encoding="utf-8")
    done = run("reaction", str(bad))
    assert done.returncode == 2
    assert "substrate[1].smiles" in done.stderr
    assert "character 4" in done.stderr


def test_a_notebook_holds_the_output(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book, reaction = tmp_path / "book.sqlite", tmp_path / "reaction.toml"
    example = EXAMPLE.with_name("run.toml")
    assert run("notebook", "new", str(book)).returncode == 0
    assert run("notebook", "add", "--notebook", str(book), str(example)).returncode == 0
    text = EXAMPLE.read_text("utf-8").replace('output = "0.62 g/h ± 5 %"', 'run = "C4"')
    reaction.write_text(text, encoding="utf-8")
    done = run("reaction", str(reaction), "--notebook", str(book))
    assert done.returncode == 0, done.stderr
    # By hand: 10.0 mmol over 11.132 mmol/h (0.5343 g/h) and 88 % is 61.25 min, shown as 61.2
    assert done.stdout.startswith("61.2 min")
    monkeypatch.setenv("OZONEWRIGHT_NOTEBOOK", str(book))
    assert run("reaction", str(reaction)).stdout.startswith("61.2 min")
    assert run("notebook", "add", str(EXAMPLE)).returncode == 0
    assert run("reaction", "vanillin, second lot").stdout.startswith("52.8 min")
    assert "no reaction" in run("reaction", "C4").stderr
