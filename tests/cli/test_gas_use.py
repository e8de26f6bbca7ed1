"""`ozonewright gas-use` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from ozonewright.bench.notebook import add_table
from ozonewright.cli.gas_use import command
from ozonewright.notebook import Notebook

BASIC = ["--cylinder", "10 L", "--pressure", "150 bar gauge", "--temperature", "15 °C",
         "--flow", "0.5 NL/min", "--reserve", "10 bar gauge"]  # fmt: skip


def run(flow: str, rate: str, label: str, feed: object = "oxygen") -> dict[str, object]:
    return {
        "run": {"label": label, "on_time": "4 min", "rate": rate, "setting": "s"},
        "gas": {"flow": flow, "feed": feed, "temperature": "20 °C", "pressure": "101.3 kPa"},
    }


def test_json_has_the_promised_keys() -> None:
    done = CliRunner().invoke(command, [*BASIC, "--output", "0.6 g/h", "--price", "130", "--json"])
    assert done.exit_code == 0
    found = json.loads(done.output)
    wanted = "gas_nm3 usable_nm3 hours cost_per_hour cost_per_gram cost_per_mmol"
    assert all(isinstance(found[key], float) for key in wanted.split())


def test_the_answer_comes_first() -> None:
    done = CliRunner().invoke(command, BASIC)
    assert done.output.startswith("47.2 ± ")


def test_runs_of_the_notebook_tell_the_lowest_flow(tmp_path: Path) -> None:
    """0.50 of 0.54 g/h is 92.6 % of the best, 0.40 of 0.54 is 74 % (by hand)."""
    book = tmp_path / "book.sqlite"
    mixture = {"oxygen": "93 vol%", "argon": "4 vol%", "nitrogen": "3 vol%"}
    with Notebook.create(book, "bench") as notebook:
        for document in (
            run("0.25 NL/min", "0.40 g/h ± 1 %", "A1"),
            run("0.50 NL/min", "0.50 g/h ± 1 %", "A2"),
            run("1.00 NL/min", "0.54 g/h ± 1 %", "A3"),
            run("0.30 NL/min", "0.54 g/h ± 1 %", "C1", mixture),
            {"run": {"label": "B1", "on_time": "4 min", "rate": "0.1 g/h"}},
        ):
            add_table(notebook, document)
    asked = [*BASIC, "--notebook", str(book)]
    found = json.loads(CliRunner().invoke(command, [*asked, "--json"]).output)
    assert found["lowest_flow_nl_per_min"] == pytest.approx(0.50)
    shares = [row["share_percent"] for row in found["flows"]]
    assert shares == pytest.approx([74.07, 92.59, 100.0], abs=0.01)
    text = CliRunner().invoke(command, [*asked, "--price", "130"]).output
    assert "Outputs at several flows" in text
