"""Output of a setting: mean, scatter, line, and what is told of them."""

from __future__ import annotations

import pytest

from ozonewright.errors import MissingValue
from ozonewright.questions.setting import RunPoint, Settled, setting_output
from ozonewright.show.words import sentence
from ozonewright.uncertain import Estimate, Share


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


def test_a_widened_interval_widens_u_with_it() -> None:
    """Whoever goes on with u alone must not be surer than the interval."""
    runs = [
        point(t * 60.0, (10.0 * t + 3.0) * 1e-6, (10.0 * t + 3.0) / t / 60 * 1e-6)
        for t in (2, 4, 4, 4, 8, 8)
    ]
    found = setting_output("s", runs)
    assert found.rate is not None
    low, high = found.rate.interval
    assert low == pytest.approx(10e-6 / 60)
    half = max(high - found.rate.value, found.rate.value - low)
    assert found.rate.u * found.rate.k == pytest.approx(half)


def test_what_all_runs_share_is_not_scattered_away() -> None:
    """Rates 10, 11, 12 as above: u = 0.57735; a titrant of 3 % of each u_rate / rate adds.

    u_rate is 10 % of each rate and the titrant has 9 % of the variance: 3 % of 11 is 0.33, and
    √(0.57735² + 0.33²) = 0.66501.
    """
    shares = (Share("titrant concentration", 9.0, 1.0), Share("on-time", 91.0, -1.0))
    runs = [
        RunPoint("r", 60.0, 600e-6, 1e-7, r * 1e-6, 0.1 * r * 1e-6, shares)
        for r in (10.0, 11.0, 12.0)
    ]
    found = setting_output("s", runs)
    assert found.rate is not None
    assert found.rate.u == pytest.approx(0.66501e-6, rel=1e-4)


def settled(verdict: str, *, slope: bool = True) -> Settled:
    def exact(value: float, u: float) -> Estimate:
        return Estimate(
            value, u, 4.0, (value - 2.78 * u, value + 2.78 * u), 2.78, "first order", ()
        )

    return Settled(verdict, exact(9e-6, 1e-7), exact(3e-6, 2e-7)) if slope else Settled(verdict)


THREE = [point(60.0 * t, 600e-6 * t, r * 1e-6) for t, r in ((1, 12.0), (2, 11.0), (4, 10.0))]


@pytest.mark.parametrize(
    ("verdict", "blank", "by", "ruled_out", "code"),
    [
        ("blank-surplus", False, "slope", True, "setting-by-slope"),
        ("start-stop", False, "slope", True, "setting-by-slope"),
        ("hold-up", True, "slope", True, "setting-by-slope"),
        ("blank-surplus+start-stop", False, "slope", True, "setting-by-slope"),
        ("blank-surplus", True, "mean", True, "setting-blank-settles"),
        ("steady", False, "mean", True, "setting-steady"),
        ("warming", False, "mean", False, "setting-other-cause"),
        ("blank-surplus+warming", False, "mean", False, "setting-other-cause"),
    ],
)
def test_what_drift_has_determined(
    verdict: str, blank: bool, by: str, ruled_out: bool, code: str
) -> None:
    found = setting_output("s", THREE, blank_known=blank, settled=settled(verdict))
    assert (found.by, found.surplus_ruled_out, found.cause) == (by, ruled_out, verdict)
    assert code in {note.code for note in found.notes}
    assert ("setting-surplus" in {note.code for note in found.notes}) is not ruled_out
    assert found.rate is not None
    if by == "slope":
        assert found.rate.value == pytest.approx(9e-6)
        assert found.rate.u == pytest.approx(1e-7)
        assert found.surplus == pytest.approx(3e-6)
    else:
        assert found.rate.value == pytest.approx(11e-6)


def test_a_mean_that_is_ruled_clean_is_not_widened_to_the_slope() -> None:
    clean = setting_output("s", THREE, settled=settled("steady")).rate
    opened = setting_output("s", THREE).rate
    assert clean is not None
    assert opened is not None
    assert clean.interval[1] - clean.interval[0] <= opened.interval[1] - opened.interval[0]
    # 11 ± 4.303 × 0.57735, as three runs by hand
    assert clean.interval[1] - clean.value == pytest.approx(2.484e-6, rel=1e-3)


def test_without_a_line_a_surplus_stays_open() -> None:
    found = setting_output("s", THREE, settled=settled("blank-surplus", slope=False))
    assert found.by == "mean"
    assert not found.surplus_ruled_out


def test_one_run_keeps_the_uncertainty_of_its_readings() -> None:
    found = setting_output("s", [point(240.0, 35e-6, 1.5e-7, 1e-9)])
    assert found.rate is not None
    assert found.rate.u == pytest.approx(1e-9)


def test_two_runs_keep_the_larger() -> None:
    near = setting_output("s", [point(240.0, 1e-5, 1.0e-7), point(240.0, 1e-5, 1.0e-7)])
    far = setting_output("s", [point(240.0, 1e-5, 1.0e-7), point(240.0, 1e-5, 1.4e-7)])
    assert near.rate is not None
    assert far.rate is not None
    assert near.rate.u == pytest.approx(1e-9)
    assert far.rate.u == pytest.approx(2e-8)


def test_no_run_is_an_error() -> None:
    with pytest.raises(MissingValue):
        setting_output("s", [])


def test_notes() -> None:
    one, two = point(240.0, 36e-6, 1.5e-7), point(480.0, 72e-6, 1.5e-7)
    assert {"setting-one-run", "setting-same-minutes", "setting-repeat"} <= codes(one)
    # Two runs of the same minutes: the third is one piece of advice, not two that disagree.
    assert "setting-other-minutes" not in codes(one, one)
    assert "of twice the minutes" in sentence(setting_output("s", [one, one]).next[0])
    assert "of twice the minutes" not in sentence(setting_output("s", [one, two]).next[0])
    assert {"setting-two-runs", "setting-surplus"} <= codes(one, two)
    assert "setting-other-minutes" in codes(one, one, one)
    assert "setting-field-blank" in codes(one, two, one)
    assert "setting-ask-drift" in codes(one, two, one)
    assert "setting-alternate" in codes(one, two, one, blank_known=True)
    assert "setting-scatter" in codes(one, two, point(240.0, 40e-6, 1.7e-7))
    assert "setting-scatter" not in codes(one, two, one)
