"""Drift chained into the output of a setting, from documents; the readings are invented.

Truth: 10 mg/min, gas 24 s longer than timed in every run (4 mg), or not;
reading errors below 0.1 mg.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from ozonewright.bench.compare import compare_files
from ozonewright.bench.load import load_runs
from ozonewright.bench.notebook import outputs_of
from ozonewright.bench.output import outputs_of_runs
from ozonewright.bench.setting import mean_of_runs, setting_output
from ozonewright.bench.settled import drift_unbidden, settled_runs, settled_setting
from ozonewright.notebook import Notebook
from ozonewright.show.setting import setting_text
from ozonewright.units import Kind, number

TIMES = (120, 480, 240, 720, 120, 360)
ERRORS = (0.05, -0.08, 0.02, 0.06, -0.03, 0.04)


def documents(setting: str, late: float, rate: float = 10.0) -> list[dict[str, Any]]:
    """Return six runs and a field blank that reads nothing."""
    found = []
    for place, (time, error) in enumerate(zip(TIMES, ERRORS, strict=True)):
        mass = rate * (time + late) / 60.0 + error
        found.append(_run(f"{setting}{place}", setting, time, mass))
    blank = _run(f"{setting}B", setting, 480, 0.0)
    blank["run"]["discharge"] = "off"
    return [*found, blank]


def _run(label: str, setting: str, time: int, mass: float) -> dict[str, Any]:
    return {
        "run": {
            "label": label,
            "setting": setting,
            "on_time": f"{time} s ± 0.5 s",
            "start": "cold",
            "rest_before": "30 min",
            "collected": f"{mass:.3f} mg ± 0.1",
        }
    }


def test_a_determined_surplus_is_taken_off() -> None:
    runs = load_runs(documents("S", 24.0))
    settled = settled_runs(runs)
    assert settled is not None
    assert settled.verdict == "start-stop"
    found = mean_of_runs("S", outputs_of_runs(runs), settled)
    assert found.rate is not None
    slope = number(found.rate.value, Kind.MASS_RATE, "mg/min")
    assert slope == pytest.approx(10.0, abs=0.05)
    assert number(found.surplus or 0.0, Kind.MASS, "mg") == pytest.approx(4.0, abs=0.3)
    assert "surplus taken off" in setting_text(found)
    # mean of 12, 10.5, 11, 10.33, 12 and 10.67 mg/min: 11.08
    bare = mean_of_runs("S", outputs_of_runs(runs))
    assert bare.rate is not None
    assert number(bare.rate.value, Kind.MASS_RATE, "mg/min") > 10.8


def test_the_comparison_starts_from_the_slope() -> None:
    """A true ratio of 2; the means of the rates would say 2.1."""
    found = compare_files([*documents("S", 24.0), *documents("T", 0.0, 5.0)])
    assert found.ratio is not None
    assert found.ratio.value == pytest.approx(2.0, abs=0.02)
    assert found.surplus_ruled_out
    assert found.scatter_from == "slope"
    assert found.ratio.interval[0] < 2.0 < found.ratio.interval[1]


def test_nothing_is_determined_without_other_minutes_or_a_blank() -> None:
    alike = [_run(f"S{place}", "S", 240, 40.0) for place in range(3)]
    assert settled_runs(load_runs(alike)) is None
    assert settled_runs(load_runs(alike[:1])) is None


def test_of_many_runs_drift_is_not_asked_unbidden(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(runs: object) -> None:
        raise AssertionError("drift was asked")

    monkeypatch.setattr("ozonewright.bench.settled.drift_of_runs", never)
    many = [_run(f"S{place}", "S", 120 + place, 20.0 + place) for place in range(31)]
    assert settled_runs(load_runs(many)) is None


def test_a_run_that_drift_can_not_use_leaves_the_mean() -> None:
    table = documents("S", 24.0)[:3]
    table[0]["run"] = {"label": "S0", "setting": "S", "rate": "0.6 g/h"}
    assert settled_runs(load_runs(table)) is None


def test_a_setting_of_the_notebook_is_weighed_once(tmp_path: Path) -> None:
    with Notebook.create(tmp_path / "b.sqlite", "invented") as notebook:
        for one in documents("S", 24.0):
            notebook.add("run", one)
        settled = settled_setting(notebook, "S")
        assert drift_unbidden(notebook, "S") is drift_unbidden(notebook, "S")
        found = setting_output(notebook, "S", outputs_of(notebook, "S"), settled)
    assert found.by == "slope"
    assert found.surplus_ruled_out
