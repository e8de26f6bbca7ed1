"""`ozonewright power` as a person types it, and as docs/power.md prints it."""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from ozonewright.cli.power import command
from ozonewright.notebook import Notebook

ROOT = Path(__file__).resolve().parents[2]
LOOP = str(ROOT / "docs" / "examples" / "loop.csv")
PLUG = ["--plug", "38.0 W ± 2 %", "--output", "0.600 g/h ± 3 %"]
RECORD = ["--loop", LOOP, "--probe", "1000:1 ± 3 %", "--capacitor", "100 nF ± 5 %"]


def documented() -> list[str]:
    """Return the commands of the page that need no notebook."""
    text = (ROOT / "docs" / "power.md").read_text(encoding="utf-8").replace("\\\n", " ")
    lines = re.findall(r"^    ozonewright (power .*)$", text, re.MULTILINE)
    return [line for line in lines if "--notebook" not in line]


@pytest.mark.parametrize("line", documented())
def test_the_page_of_the_docs_works_as_printed(line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    done = CliRunner().invoke(command, shlex.split(line)[1:])
    assert done.exit_code == 0, done.output
    assert done.output.split("\n")[0].split(";")[0].endswith(("W at the plug (27 %)", "at the plug",
                                                              "in the gas"))  # fmt: skip


def test_the_answer_comes_first_then_the_cautions() -> None:
    """The record is of a tube that gets 10.2 W, by hand; figures of docs/power.md."""
    text = CliRunner().invoke(command, [*PLUG, *RECORD]).output
    assert text.startswith("10.20 ± 0.60 W in the gas of 38.00 ± 0.76 W at the plug (27 %)")
    assert text.index("Take care") < text.index("Working") < text.index("The loop as")
    for words in ("58.8 ± 3.9 g/kWh of the discharge", "papers name your voltage", "Manley"):
        assert words in " ".join(text.split())
    assert max(len(line) for line in text.splitlines()) <= 80


def test_without_a_loop_it_is_not_determined() -> None:
    text = " ".join(CliRunner().invoke(command, PLUG).output.split())
    assert "38.00 ± 0.76 W at the plug; what the gas gets is not determined" in text
    assert "Stay with the plug unless" in text
    only = CliRunner().invoke(command, ["--discharge", "18 W ± 1 W"]).output
    assert "plug power not stated" in only
    assert "Yield: not determined" in only


def test_json_has_its_keys() -> None:
    found = json.loads(CliRunner().invoke(command, [*PLUG, *RECORD, "--json"]).output)
    wanted = (
        "plug_power_w u_plug_power_w interval_plug_power_w discharge_power_w "
        "supply_efficiency_percent yield_plug_g_per_kwh yield_discharge_g_per_kwh "
        "yield_limit_g_per_kwh share_of_limit_discharge_percent loop notes unknowns sources"
    )
    assert set(wanted.split()) <= found.keys()
    assert found["yield_limit_g_per_kwh"] == pytest.approx(1219.0, rel=1e-4)
    assert found["loop"]["frequency_hz"] == pytest.approx(1000.0, rel=1e-3)
    bare = json.loads(CliRunner().invoke(command, [*PLUG, "--json"]).output)
    assert bare["discharge_power_w"] is None
    assert bare["loop"] is None


def test_the_loop_is_drawn(tmp_path: Path) -> None:
    folder = tmp_path / "figures"
    done = CliRunner().invoke(command, [*PLUG, *RECORD, "--figures", str(folder)])
    assert done.exit_code == 0
    picture = (folder / "loop.svg").read_text(encoding="utf-8")
    assert picture.count("<path") > 10
    assert 'class="chain"' in picture
    head, *rows = (folder / "loop.csv").read_text(encoding="utf-8").splitlines()
    assert head == "voltage / kV,charge / µC"
    assert max(float(row.split(",")[0]) for row in rows) == pytest.approx(8.0, rel=0.02)
    assert max(float(row.split(",")[1]) for row in rows) == pytest.approx(1.0, rel=0.03)


def test_a_setting_of_the_notebook(tmp_path: Path) -> None:
    file = tmp_path / "b.sqlite"
    with Notebook.create(file, "B") as book:
        run = {"on_time": "240 s ± 1 s", "setting": "S", "collected": "40 mg ± 1 %"}
        book.add("run", {"run": run, "electrical": {"power": "38 W ± 1 W"}})
    done = CliRunner().invoke(command, ["--notebook", str(file), "--setting", "S"])
    assert "15.8" in done.output
    assert done.exit_code == 0


def test_a_flat_top_is_said(tmp_path: Path) -> None:
    rows = ["time (ms),voltage (V),charge (nC)"]
    for step in range(4000):
        place = (step % 1000) / 1000.0
        voltage = min(max(8.0 * (1.0 - abs(4.0 * place - 2.0)), -5.0), 5.0)
        rows.append(f"{step / 1000},{voltage},{voltage - (0.5 if place < 0.5 else -0.5)}")
    file = tmp_path / "flat.csv"
    file.write_text("\n".join(rows), encoding="utf-8")
    asked = ["--loop", str(file), "--probe", "1000 ± 3 %"]
    assert "cut off" in str(CliRunner().invoke(command, asked).exception)
    assert CliRunner().invoke(command, [*asked, "--flat-topped"]).exit_code == 0
