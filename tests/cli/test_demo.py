"""`ozonewright demo DIR` as a person types it."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from cli.typed import run
from ozonewright.bench.notebook import verify
from ozonewright.bench.reaction import plan_of_entry
from ozonewright.cli.demo import command
from ozonewright.errors import Inconsistent
from ozonewright.notebook import Notebook
from ozonewright.uncertain import Estimate


def test_it_writes_answers_and_says_where_to_look_next(tmp_path: Path) -> None:
    done = CliRunner().invoke(command, [str(tmp_path)])
    assert done.exit_code == 0, done.exception
    assert done.output.startswith("12 invented runs are in")
    for told in ("C4 reads ", "not determined", "field blank A0", "weakest reading: on-time"):
        assert told in " ".join(done.output.split())
    for asked in (
        "reaction",
        "gate",
        "log",
        "clearance",
        "room",
        "gas-line",
        "absorber",
        "generator",
        "power",
        "report",
        "open",
    ):
        assert f"      ozonewright {asked} " in done.output
    assert "ozonewright agreement" in done.output.splitlines()[-1]
    assert len(list((tmp_path / "runs").glob("*.toml"))) == 12
    assert (tmp_path / "truth.toml").exists()
    assert (tmp_path / "notes.md").exists()
    with Notebook.open(tmp_path / "demo.sqlite") as notebook:
        assert len(notebook.entries(kind="run")) == 12
        (reaction,) = notebook.entries(kind="reaction")
        plan = plan_of_entry(notebook, reaction)
        assert verify(notebook).sound
    # By hand: 10.0 mmol at the true 0.620 g/h and 88 % need 52.8 min; the slip C4 widens it.
    assert isinstance(plan.on_time, Estimate)
    assert plan.on_time.interval[0] < 52.8 * 60.0 < plan.on_time.interval[1]


def test_twice_is_once(tmp_path: Path) -> None:
    first = CliRunner().invoke(command, [str(tmp_path)])
    assert CliRunner().invoke(command, [str(tmp_path)]).output == first.output


def test_another_seed_in_the_same_folder_is_refused(tmp_path: Path) -> None:
    CliRunner().invoke(command, [str(tmp_path)])
    done = CliRunner().invoke(command, [str(tmp_path), "--seed", "8"])
    assert isinstance(done.exception, Inconsistent)
    assert "hold something else" in str(done.exception)


def test_another_notebook_of_that_name_is_refused(tmp_path: Path) -> None:
    Notebook.create(tmp_path / "demo.sqlite", "mine").close()
    done = CliRunner().invoke(command, [str(tmp_path)])
    assert "is not the demo's" in str(done.exception)


def test_a_mistyped_command_names_the_nearest() -> None:
    done = run("outptu")
    assert done.returncode == 2
    assert "Nearest: output" in done.stderr
