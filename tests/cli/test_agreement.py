"""`ozonewright agreement` as a person types it."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from click.testing import CliRunner

from ozonewright.bench.agreement import agreement
from ozonewright.cli import agreement as cli


def test_the_answer_comes_first_and_the_counts_last() -> None:
    done = CliRunner().invoke(cli.command, [])
    assert done.exit_code == 0
    first, *rest = done.output.splitlines()
    assert first.endswith("figures: all agree")
    assert rest[-1].endswith("0 disagree.")
    assert "from memory" in done.output
    assert max(len(line) for line in rest) <= 140


def test_json_has_the_promised_keys() -> None:
    found = json.loads(CliRunner().invoke(cli.command, ["--json"]).output)
    promised = {"id", "source", "evidence", "expected", "got", "tolerance", "agrees"}
    assert all(promised <= line.keys() for line in found["cases"])
    assert found["figure_count"] == len(found["cases"]) == found["agree_count"]
    assert found["case_count"] == len({line["case"] for line in found["cases"]})


@pytest.mark.parametrize("arguments", [[], ["--json"]])
def test_a_disagreement_ends_with_3(monkeypatch: pytest.MonkeyPatch, arguments: list[str]) -> None:
    good = agreement()
    wrong = replace(good, cases=(replace(good.cases[0], agrees=False),), disagree_count=1)
    monkeypatch.setattr(cli, "agreement", lambda: wrong)
    assert CliRunner().invoke(cli.command, arguments).exit_code == 3
