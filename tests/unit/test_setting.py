"""Output of a setting: mean, scatter, line, and what is told of them."""

from __future__ import annotations

import pytest

from ozonewright.errors import MissingValue
from ozonewright.questions.setting import RunPoint, setting_output


def point(on_time: float | None, ozone: float, rate: float, u_rate: float = 1e-9) -> RunPoint:
    return RunPoint("r", on_time, ozone, 1e-7, rate, u_rate)


def codes(*points: RunPoint, blank_known: bool = False) -> set[str]:
    found = setting_output("s", points, blank_known=blank_known)
    return {note.code for note in (*found.notes, *found.next)}


def test_three_runs_by_hand() -> None:
    """Rates 10, 11, 12: mean 11, s = 1, u = 1/√3 = 0.57735, t(2) = 4.303: ± 2.484.

    The t of 95 % and 2 degrees of freedom, 4.30, is in table G.2 of JCGM 100.
    """
    found = setting_output("s", [point(60.0, 600e-6, r * 1e-6) for r in (10.0, 11.0, 12.0)])
    assert found.rate is not None
    assert found.rate.value == pytest.approx(11e-6)
    assert found.rate.u == pytest.approx(0.57735e-6, rel=1e-5)
    assert found.rate.interval[1] - found.rate.value == pytest.approx(2.484e-6, rel=1e-3)
    assert found.scatter == pytest.approx(1 / 11)


def test_the_interval_reaches_to_the_slope() -> None:
    """A surplus of 3 mg: 2, 4, 8 min at 10 mg/min collect 23, 43, 83 mg; the line finds both."""
    runs = [
        point(t * 60.0, (10.0 * t + 3.0) * 1e-6, (10.0 * t + 3.0) / t / 60 * 1e-6)
        for t in (2, 4, 8)
    ]
    found = setting_output("s", runs)
    assert found.slope == pytest.approx(10e-6 / 60)
    assert found.surplus == pytest.approx(3e-6)
    assert found.rate is not None
    assert found.rate.interval[0] <= 10e-6 / 60 <= found.rate.interval[1]


def test_one_run_keeps_the_uncertainty_of_its_readings() -> None:
    found = setting_output("s", [point(240.0, 35e-6, 1.5e-7, 1e-9)])
    assert found.rate is not None
    assert found.rate.u == 1e-9


def test_two_runs_keep_the_larger() -> None:
    near = setting_output("s", [point(240.0, 1e-5, 1.0e-7), point(240.0, 1e-5, 1.0e-7)])
    far = setting_output("s", [point(240.0, 1e-5, 1.0e-7), point(240.0, 1e-5, 1.4e-7)])
    assert near.rate is not None
    assert far.rate is not None
    assert near.rate.u == 1e-9
    assert far.rate.u == pytest.approx(2e-8)


def test_no_run_is_an_error() -> None:
    with pytest.raises(MissingValue):
        setting_output("s", [])


def test_notes() -> None:
    one, two = point(240.0, 36e-6, 1.5e-7), point(480.0, 72e-6, 1.5e-7)
    assert {"setting-one-run", "setting-same-minutes", "setting-repeat"} <= codes(one)
    assert {"setting-two-runs", "setting-surplus"} <= codes(one, two)
    assert "setting-other-minutes" in codes(one, one, one)
    assert "setting-field-blank" in codes(one, two, one)
    assert "setting-alternate" in codes(one, two, one, blank_known=True)
    assert "setting-scatter" in codes(one, two, point(240.0, 40e-6, 1.7e-7))
    assert "setting-scatter" not in codes(one, two, one)
