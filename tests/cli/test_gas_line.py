"""`ozonewright gas-line` as a person types it."""

from __future__ import annotations

import json
import re
from io import BytesIO, TextIOWrapper
from pathlib import Path
from unittest import mock

import pytest

from cli.typed import run
from unit.rigs import DESIGN


@pytest.fixture
def rig(tmp_path: Path) -> str:
    path = tmp_path / "rig.toml"
    path.write_text(DESIGN, encoding="utf-8")
    return str(path)


def test_the_answer_comes_first(rig: str) -> None:
    done = run("gas-line", rig)
    assert done.returncode == 0
    first = done.stdout.splitlines()[0]
    assert re.match(r"pump air, long thin line: 1\.8[78] L/min .*\(1\.7[45] NL/min", first)
    assert "line: bore 4 mm instead of 2 mm" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert "22.41397" in done.stdout


def test_json_has_the_agreed_keys(rig: str) -> None:
    found = json.loads(run("gas-line", rig, "--json").stdout)
    assert {
        "flow_l_per_min_ambient", "flow_nl_per_min", "parts", "bottleneck", "what_if",
        "hold_up_ml", "hold_up_s", "suck_back", "notes", "unknowns",
    } <= set(found)  # fmt: skip
    assert set(found["parts"][1]) >= {
        "name", "kind", "flow_nl_per_min", "pressure_in_kpa_gauge", "drop_kpa", "share_percent",
    }  # fmt: skip
    assert set(found["what_if"][0]) >= {"change", "flow_nl_per_min"}
    assert set(found["suck_back"]) >= {"height_cm", "volume_ml", "safety_bottle_holds"}
    assert found["flow_nl_per_min"] == pytest.approx(1.74, abs=0.01)


def test_a_rig_from_standard_input() -> None:
    with mock.patch("sys.stdin", TextIOWrapper(BytesIO(DESIGN.encode()), encoding="utf-8")):
        assert run("gas-line", "-").stdout.startswith("pump air, long thin line")


def test_meters(rig: str) -> None:
    at = ("--temperature", "20 °C", "--pressure", "101.325 kPa")
    done = run("gas-line", "--reading", "0.75 L/min", "--scale", "air", "--gas", "oxygen", *at)
    assert "true flow = 0.951 × reading" in done.stdout
    done = run("gas-line", "--displaced", "500 mL", "--time", "38.0 s", *at, "--json")
    assert json.loads(done.stdout)["water_percent"] == pytest.approx(2.31, abs=0.01)
    done = run("gas-line", "--displaced", "500 mL", "--time", "38.0 s", *at)
    assert "water vapour: 2.3 %" in done.stdout
    assert run("gas-line", rig, "--reading", "0.75 L/min").returncode == 2


def test_bad_input_says_how_to_mend(tmp_path: Path) -> None:
    for old, new, what in [
        ('kind = "pump"', 'kind = "tee"', "no supplier"),
        ('bore = "2 mm"', 'bore = "0 mm"', "must be above 0"),
        ('length = "1 m"', 'length = "-1 m"', "must be above 0"),
        ('name = "valve"', 'name = "valve"\nafter = "stone"', "not connected"),
    ]:
        text = DESIGN.replace(old, new)
        if new.endswith('"tee"'):
            text = text.replace('free_flow = "3.0 L/min"\nshut_off = "18 kPa"\n', "")
        path = tmp_path / "rig.toml"
        path.write_text(text, encoding="utf-8")
        done = run("gas-line", str(path))
        assert done.returncode == 2
        assert what in done.stderr
        assert done.stdout == ""
    assert run("gas-line").returncode == 2
    (tmp_path / "run.toml").write_text('[run]\nrate = "0.5 g/h"\n', encoding="utf-8")
    assert "no [rig]" in run("gas-line", str(tmp_path / "run.toml")).stderr
