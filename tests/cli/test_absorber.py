"""`ozonewright absorber` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from ozonewright.cli.absorber import command
from ozonewright.errors import InputError
from ozonewright.notebook import Notebook
from unit.test_absorber import RIG

ASK = ["--output", "0.6 g/h", "--flow", "0.8 NL/min"]


def test_json_has_the_promised_keys(tmp_path: Path) -> None:
    rig = tmp_path / "rig.toml"
    rig.write_text(RIG, encoding="utf-8")
    done = CliRunner().invoke(command, [str(rig), *ASK, "--json"])
    assert done.exit_code == 0
    found = json.loads(done.output)
    wanted = (
        "transfer_efficiency_percent interval_transfer_efficiency_percent slip_mg_per_min "
        "dissolved_mg_per_l bubble_mm kl_m_per_s hatta method_names notes unknowns"
    )
    assert set(wanted.split()) <= set(found)
    assert 0.0 < found["transfer_efficiency_percent"] < 100.0
    assert [row["name"] for row in found["bottles"]] == ["primary", "guard"]
    assert {row["bottle"] for row in found["course"]} == {"primary", "guard"}
    first = found["course"][0]
    assert first["time_min"] == 0.0
    assert {"reactant_left_percent", "dissolved_mg_per_l", "slip_mg_per_min"} <= set(first)


def test_text_answers_first() -> None:
    done = CliRunner().invoke(command, ["-", *ASK], input=RIG)
    assert done.exit_code == 0
    assert "of the ozone taken up; slip" in done.output.splitlines()[0]
    assert "Working" in done.output
    assert max(len(line) for line in done.output.splitlines()) <= 100


def test_a_measurement_and_an_iodide_bottle_are_told() -> None:
    text = RIG.replace('depth = "15 cm"', 'depth = "15 cm"\npotassium_iodide = "4.0 g"')
    done = CliRunner().invoke(command, ["-", *ASK, "--guard-share", "2.9 %"], input=text)
    assert done.exit_code == 0
    assert "by the model alone" in done.output
    assert "Measured: the guard share says" in done.output
    assert "Minute by minute" in done.output
    assert "guard, left" in done.output
    assert "a twentieth of the ozone passes all bottles" in done.output.replace("\n    ", " ")


REACTION = """
[reaction]
label = "lot"
solvent = "methanol"
volume = "100 mL"
temperature = "-40 °C"
work_up = "reductive"
output = "0.62 g/h ± 5 %"
[[substrate]]
smiles = "C/C=C/c1ccc(O)c(OC)c1"
amount = "10.0 mmol"
"""


def test_a_simulated_run_by_text_and_json(tmp_path: Path) -> None:
    reaction = tmp_path / "reaction.toml"
    reaction.write_text(REACTION, encoding="utf-8")
    asked = ["-", "--reaction", str(reaction), "--flow", "0.8 NL/min"]
    done = CliRunner().invoke(command, asked, input=RIG)
    assert done.exit_code == 0
    assert "min to 99 % converted; uptake" in done.output.splitlines()[0]
    book = tmp_path / "bench.db"
    Notebook.create(book, "bench").close()
    done = CliRunner().invoke(command, [*asked, "--json", "--notebook", str(book)], input=RIG)
    found = json.loads(done.output)
    assert found["ozone_imbalance"] < 1e-6
    assert found["carbon_imbalance"] < 1e-6
    low, high = found["interval_solvent_lost_mmol"]
    assert 0.0 < low < found["solvent_lost_mmol"] < high
    assert found["substrate_carried_off_percent"] < 0.1
    assert found["unknowns"] == []
    assert found["look_from_min"] <= found["on_time_min"]
    wrong = CliRunner().invoke(command, [*asked, "--guard-share", "3 %"], input=RIG)
    assert isinstance(wrong.exception, InputError)
