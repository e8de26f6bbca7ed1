"""`ozonewright gas-line RIG.toml --drawing FILE.svg` as a person types it."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

from click.testing import CliRunner

from ozonewright.cli.gas_line import command
from ozonewright.demo import rig_files


def test_the_drawing_has_flow_pressures_and_bottleneck(tmp_path: Path) -> None:
    rig = tmp_path / "rig.toml"
    rig.write_text(rig_files()["rigs/workshop.toml"], encoding="utf-8")
    done = CliRunner().invoke(command, [str(rig), "--drawing", str(tmp_path / "line.svg")])
    assert done.exit_code == 0, done.exception
    words = [one.text or "" for one in ElementTree.parse(tmp_path / "line.svg").iter()]
    for told in ("Gas line workshop", "kPa gauge", "▼ bottleneck", "discharge tube"):
        assert told in words
    assert any("Suck-back" in one and "the safety bottle holds 250 mL" in one for one in words)


def test_a_drawing_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    rig = tmp_path / "rig.toml"
    rig.write_text(rig_files()["rigs/workshop.toml"], encoding="utf-8")
    done = CliRunner().invoke(command, [str(rig), "--drawing", str(tmp_path / "no" / "line.svg")])
    assert "the drawing can't be written" in str(done.exception)
