"""`ozonewright absorber` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from ozonewright.cli.absorber import command
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
