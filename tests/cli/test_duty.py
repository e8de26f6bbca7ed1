"""`ozonewright duty` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from cli.typed import run
from ozonewright.cli.duty import command

STORY = ["--on", "6 min", "--off", "9 min", "--time-constant", "4.6 min", "--output", "0.62 g/h"]
HEAT = ["--rise", "60 K", "--ambient", "25 °C", "--limit", "70 °C"]


def test_the_answer_comes_first() -> None:
    text = CliRunner().invoke(command, [*STORY, *HEAT]).output
    assert text.startswith("6.0 min on, 9.0 min off: peaks at 70.46 ± ")
    assert "delivers 248" in " ".join(text.split())
    assert "never the safeguard" in text


def test_less_is_answered_too() -> None:
    text = CliRunner().invoke(command, STORY).output
    assert "peaks at 76 % of the continuous rise" in " ".join(text.split())
    assert "not determined" in text


def test_json_has_the_promised_keys() -> None:
    found = json.loads(CliRunner().invoke(command, [*STORY, *HEAT, "--json"]).output)
    wanted = "peak_share_percent peak_temperature_c ozone_mg_per_clock_hour longest_on_min notes"
    assert {*wanted.split(), "unknowns"} <= found.keys()
    assert len(found["patterns"]) > 2


def test_a_tube_that_stays_cool() -> None:
    done = CliRunner().invoke(command, [*STORY, "--rise", "30 K", *HEAT[2:]])
    assert "even if it runs on" in done.output


def test_a_log_from_a_file(tmp_path: Path) -> None:
    file = tmp_path / "warm.csv"
    rows = (f"{m},{23 + 60 * (1 - 2.71828 ** (-m / 4.6)):.2f}" for m in range(30))
    file.write_text("time (min),temperature (°C)\n" + "\n".join(rows), encoding="utf-8")
    done = CliRunner().invoke(command, [*STORY[:4], "--log", str(file), "--limit", "70 °C"])
    assert "From the log" in done.output


def test_an_output_that_falls() -> None:
    """By hand as in tests/unit/test_duty_output.py."""
    falls = ["--temperature-coefficient", "-0.4 %/K", "--output-at", "warm"]
    text = CliRunner().invoke(command, [*STORY, *HEAT, *falls]).output
    assert "delivers 277.7" in " ".join(text.split())
    found = json.loads(CliRunner().invoke(command, [*STORY, *HEAT, *falls, "--json"]).output)
    assert round(found["rate_end_g_per_h"], 3) == 0.656


def test_what_stands_in_a_notebook_needs_one() -> None:
    for option in ("--setting", "--at", "--readings"):
        done = run("duty", *STORY, option, "x")
        assert done.returncode == 2
        assert "none is given" in done.stderr
