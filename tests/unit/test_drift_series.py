"""What drift takes from whole run documents: guard titres, order, rests, trap, field blanks."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import numpy as np
import pytest

from ozonewright.bench.drift import About, drift_of
from ozonewright.bench.load import load_runs
from ozonewright.bench.series import in_order, series_of
from ozonewright.errors import Faults, NotFound
from ozonewright.questions.drift import Drift, Rig, SeriesRun
from ozonewright.questions.drift.model import predicted
from ozonewright.questions.drift.series import readings_of
from ozonewright.questions.drift.setup import facts_of, loss_of_run, setup_of
from ozonewright.references.priors import prior
from ozonewright.references.tables import rows
from ozonewright.show.drift import drift_text

MG = 1e-6 / 47.997e-3
"""A milligram of ozone in mol."""


def document(label: str, minutes: float, titres: list[str], started: str, **run: Any) -> Any:
    return {
        "label": label,
        "on_time": f"{minutes:g} min ± 1 s",
        "started": datetime.fromisoformat(started),
        **run,
        "gas": {"flow": "0.80 L/min", "temperature": "22 °C", "pressure": "101.3 kPa"},
        "absorber": {
            "bottles": [{"volume": "200 mL", "potassium_iodide": "4.0 g"}] * 2,
            "acid": {
                "kind": "sulfuric acid", "amount": "10 mL", "concentration": "1 mol/L",
                "when": "after",
            },
        },
        "titration": {
            "titres": titres,
            "blank": "0.10 mL",
            "titrant": {"concentration": "0.1000 mol/L"},
        },
    }  # fmt: skip


RUNS = {
    "run": [
        document("B", 4, ["22.40 mL", "0.60 mL"], "2026-05-09T10:40:00", start="cold"),
        document("A", 2, ["12.78 mL", "0.40 mL"], "2026-05-09T10:00:00", start="cold"),
        document("C", 8, ["41.80 mL", "1.05 mL"], "2026-05-09T11:20:00", start="cold"),
        document("D", 4, ["3.15 mL", "0.10 mL"], "2026-05-09T12:00:00", discharge="off"),
    ]
}
"""Invented: about 11.9 mg/min with a blank of 7.3 mg in the first bottle."""


@pytest.fixture(scope="module")
def found() -> Drift:
    return drift_of([RUNS])


def test_runs_are_put_in_order_and_rests_follow_from_the_clock() -> None:
    ordered, known = in_order(load_runs([RUNS]))
    assert known
    first, second, *_ = series_of(ordered)
    assert (first.label, second.label) == ("A", "B")
    assert first.rest is None
    # 10:00 and 2 min of gas, then 10:40: 38 min
    assert second.rest == pytest.approx(38 * 60.0)


def test_titres_become_ozone_with_the_guard_by_itself() -> None:
    """By hand: (12.68 + 0.30) mL of 0.1 mol/L is 0.649 mmol of ozone; 0.30 mL is 0.015 mmol."""
    (run,) = [one for one in series_of(load_runs([RUNS])) if one.label == "A"]
    assert run.ozone == pytest.approx(0.649e-3, rel=1e-6)
    assert run.guard == pytest.approx(0.015e-3, rel=1e-6)
    # 0.08 mL of reading and end point, halved and times 0.1 mol/L
    assert run.u_ozone == pytest.approx(4.0e-6, rel=1e-6)
    assert run.u_guard == pytest.approx(4.0e-6, rel=1e-6)
    # 4.0 g over 166.00 g/mol
    assert run.iodide == pytest.approx(24.096e-3, rel=1e-4)
    assert run.u_on_time == 1.0
    # 10 mL of 1 mol/L: at pH 2.5 it has given 1.77 protons; 210 mL at that pH keep 0.66 mmol
    assert run.protons == pytest.approx(17.0e-3, abs=0.2e-3)


def test_the_blank_is_named(found: Drift) -> None:
    assert found.verdict == "blank-surplus"
    assert found.threshold == 0.95
    assert "gas.flow" not in found.unknowns
    assert "guard bottle" not in found.unknowns
    slip = next(row for row in found.causes if row.cause == "slip")
    assert slip.probability is not None
    assert "determined: a blank" in drift_text(found)


def test_the_titrant_of_the_runs_is_that_of_the_next(found: Drift) -> None:
    assert found.titrant == pytest.approx(100.0)
    assert not any(note.code == "drift-assumed-titrant" for note in found.assumed)


def test_a_setting_that_is_not_there_is_told() -> None:
    with pytest.raises(NotFound, match="no run is of this setting"):
        drift_of([RUNS], setting="none")


def test_a_hold_up_that_is_stated_replaces_the_guess() -> None:
    table = {
        "run": [
            {"on_time": f"{t} min", "collected": f"{10 * t - 3:.1f} mg ± 0.1 mg"} for t in (2, 4, 8)
        ]
    }
    free = drift_of([table], About(in_order=True))
    known = drift_of([table], About({"hold_up": "18 s"}, in_order=True))

    def chance(found: Drift) -> float:
        return next(row.probability or 0.0 for row in found.causes if row.cause == "hold-up")

    assert chance(known) > chance(free)
    assert "hold-up" not in known.unknowns


def test_what_is_said_of_all_runs_is_read_at_once() -> None:
    with pytest.raises(Faults) as told:
        drift_of([RUNS], About({"flow": "fast", "iodide": "much", "rest": "-1 min"}))
    assert len(told.value.faults) == 3


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"collected": "10 mg", "on_time": None}, "on-time"),
        ({"collected": "10 mg ± 0 mg"}, "without any uncertainty"),
    ],
)
def test_a_run_that_cannot_be_weighed_is_told(change: dict[str, Any], told: str) -> None:
    run = {"on_time": "4 min", "rate": None, **change}
    with pytest.raises(Faults, match=told):
        drift_of(
            [{"run": [{k: v for k, v in run.items() if v}, {"on_time": "2 min", "rate": "1 g/h"}]}]
        )


def plain(**more: Any) -> SeriesRun:
    return SeriesRun("x", 240.0, 40.0 * MG, 0.2 * MG, **more)


def test_a_train_of_two_by_hand() -> None:
    """1 mg/s for 100 s with a slip of 0.1: 90 mg in the first bottle, 9 mg in the guard bottle."""
    runs = [plain(guard=4.0 * MG, bottles=2), plain(guard=4.0 * MG, bottles=2, discharge_on=False)]
    setup = setup_of(runs, Rig(), facts_of(runs, Rig(), order=True))
    theta = {
        "rate": np.array([[0.1 * MG]]),
        "slip": np.array([[0.1]]),
        "blank": np.array([[2.0 * MG]]),
    }
    told = predicted(setup, theta | {"blank_in_guard": np.array([[0.5]])})
    assert told.main[0] / MG == pytest.approx([24.0 * 0.9 + 2.0, 2.0])
    assert told.guard[0] / MG == pytest.approx([24.0 * 0.09 + 1.0, 1.0])


def test_carried_warmth_by_hand() -> None:
    """A run and a rest of one time constant each leave the next run 1 - (1 - 1/e)/e cold."""
    runs = [plain(), plain(rest=480.0), plain(start="warm")]
    setup = setup_of(runs, Rig(), facts_of(runs, Rig(), order=True))
    one = np.array([[1.0]])
    theta = {
        "rate": one,
        "excess": one,
        "settling": 240.0 * one,
        "cooling": 2.0 * one,
        "carried": 1.0,
    }
    told = predicted(setup, theta).total[0]
    cold = 1.0 - (1.0 - np.exp(-1.0)) * np.exp(-1.0)
    area = 240.0 * (1.0 - np.exp(-1.0))
    assert told == pytest.approx([240.0 + area, 240.0 + cold * area, 240.0])


def test_other_shifts_what_changed() -> None:
    runs = [plain(), plain(iodide_times=3.0), plain(flow=2.0), plain(start="warm", acid_times=2.0)]
    runs[0] = plain(flow=1.0)
    facts = facts_of(runs, Rig(), order=True)
    assert facts.kinds == ("acid", "flow", "iodide", "start")
    setup = setup_of(runs, Rig(), facts)
    theta = {
        "rate": np.array([[1.0]]),
        "shift iodide": np.array([[0.1]]),
        "shift start": np.array([[0.5]]),
    }
    assert predicted(setup, theta).total[0] / 240.0 == pytest.approx([1.0, 1.1, 1.0, 1.5])
    assert readings_of(runs).total == pytest.approx([40.0 * MG] * 4)


def test_iodine_is_hardly_carried_off_while_iodide_is_plenty() -> None:
    """Notes of the trade: about 0.08 % per minute at 1 L/min through 200 mL with 2 % iodide."""
    run = plain(iodide=24.1e-3, volume=200e-6, flow=1e-3 / 60.0)
    assert loss_of_run(run, 298.15) * 60.0 == pytest.approx(0.0008, rel=0.3)
    assert np.isnan(loss_of_run(plain(), 298.15))


def test_priors_are_marked_as_judgement() -> None:
    names = [row["name"] for row in rows("drift_priors")]
    assert len(names) > 25
    for name in names:
        assert (prior(name).centre.evidence, prior(name).centre.source) == ("common practice", "")
    with pytest.raises(Exception, match="Nearest: BLANK"):
        prior("BLNK")
