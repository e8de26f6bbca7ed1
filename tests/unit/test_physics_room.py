"""The well-mixed box, releases and oxygen against closed forms and hand sums."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from ozonewright.physics.hazards import oxygen, release, room

MG_PER_H = 1e-6 / 3600.0
PER_H = 1.0 / 3600.0


def test_steady_state_of_the_design_by_hand() -> None:
    # 100 mg/h ÷ (24 m³ × 3.3 /h) = 1.2626 mg/m³.
    loss = room.loss_rate(air_changes=0.5 * PER_H, removal=2.8 * PER_H)
    found = room.steady_concentration(release=100.0 * MG_PER_H, volume=24.0, loss=loss)
    assert found == pytest.approx(1.2626e-6, rel=1e-4)


def test_rise_against_an_integrator() -> None:
    given = {"release": 3e-8, "volume": 24.0, "loss": 9e-4}
    done = solve_ivp(lambda t, c: 3e-8 / 24.0 - 9e-4 * c, (0, 3000), [2e-7], rtol=1e-9, atol=1e-16)
    found = room.room_concentration(time=3000.0, start=2e-7, **given)
    assert found == pytest.approx(done.y[0, -1], rel=1e-7)


def test_rise_without_loss_is_a_straight_line() -> None:
    found = room.room_concentration(
        time=np.array([0.0, 10.0]), release=2.0, volume=4.0, loss=0.0, start=1.0
    )
    assert found == pytest.approx([1.0, 6.0])


def test_mean_of_the_rise_is_its_integral() -> None:
    times = np.linspace(0.0, 900.0, 20001)
    given = {"release": 3e-8, "volume": 24.0, "loss": 9e-4}
    rise = room.room_concentration(time=times, **given)
    mean = np.trapezoid(rise, times) / 900.0
    assert room.mean_concentration(time=900.0, **given) == pytest.approx(mean, rel=1e-7)


@pytest.mark.parametrize("loss", [0.0, 9e-4])
@pytest.mark.parametrize("start", [0.0, 1e-7])
def test_time_to_a_limit_is_the_way_back(loss: float, start: float) -> None:
    given = {"release": 3e-8, "volume": 24.0, "loss": loss, "start": start}
    time = room.time_to_limit(limit=2e-7, **given)
    assert isinstance(time, float)
    assert room.room_concentration(time=time, **given) == pytest.approx(2e-7)


def test_a_limit_is_passed_at_once_later_or_never() -> None:
    found = room.time_to_limit(
        limit=np.array([1.0, 2.0, 5.0, 10.0]), release=5.0, volume=1.0, loss=1.0, start=1.5
    )
    # The end is 5: at once, ln((5-1.5)/(5-2)), never (reached only in the end), never.
    assert found == pytest.approx([0.0, np.log(3.5 / 3.0), np.inf, np.inf])


def test_decay_by_hand() -> None:
    # ln 10 ÷ 8.8 /h = 15.70 min.
    assert room.time_to_fall(start=1.0, limit=0.1, loss=8.8 * PER_H) == pytest.approx(
        15.70 * 60.0, rel=1e-3
    )
    found = room.time_to_fall(start=np.array([0.1, 1.0]), limit=0.1, loss=np.array([1.0, 0.0]))
    assert list(found) == [0.0, np.inf]


def test_air_changes_needed_keep_the_limit() -> None:
    given = {"release": 3e-8, "volume": 24.0, "limit": 2e-7}
    needed = room.air_changes_needed(removal=5e-4, **given)
    steady = room.steady_concentration(release=3e-8, volume=24.0, loss=needed + 5e-4)
    assert steady == pytest.approx(2e-7)
    assert room.air_changes_needed(removal=1.0, **given) == 0.0


def test_deposition_of_the_published_homes() -> None:
    # 0.049 cm/s × 1.587 /m = 2.80 /h (lee_1999).
    found = room.removal_by_deposition(deposition_velocity=0.049e-2, surface_per_volume=1.587)
    assert found == pytest.approx(2.80 * PER_H, rel=1e-3)


def test_puff_by_hand() -> None:
    assert room.concentration_of_puff(mass=24e-6, volume=24.0) == pytest.approx(1e-6)


def test_releases_by_hand() -> None:
    # 0.62 g/h, 5 % past the liquid: 31 mg/h; a tail that takes 95 % of it: 1.55 mg/h.
    slip = release.release_by_slip(output=620.0, uptake=0.95)
    assert slip == pytest.approx(31.0)
    tail = release.release_by_slip(output=620.0, uptake=0.95, destroyed=0.95)
    assert tail == pytest.approx(1.55)
    # 12.1 g/Nm³ at 0.01 NL/min: 0.121 mg/min.
    assert release.release_by_leak(concentration=12.1, leak=0.01e-3 / 60.0) * 3.6e9 == (
        pytest.approx(7260.0)
    )
    assert release.mass_of_ozone(amount=1e-3) == pytest.approx(47.997e-6)


def test_purge_by_hand() -> None:
    # 1 L at 0 °C and 101.325 kPa of 100 g/Nm³ holds 100 mg.
    found = release.mass_of_purge(
        concentration=0.1 * 22.41397e-3, volume=1e-3, temperature=273.15, pressure=101325.0
    )
    assert found == pytest.approx(100e-6, rel=1e-6)


BOX = {"flow": 1e-3 / 60.0, "oxygen": 1.0, "fresh_air": 0.0, "air_oxygen": 0.2094}


def test_oxygen_in_a_box_by_hand() -> None:
    # 1 - 0.7906 exp(-5/40) = 0.3023: 30 % within five minutes.
    found = oxygen.oxygen_fraction(time=300.0, volume=0.040, **BOX)
    assert found == pytest.approx(0.3023, abs=1e-4)
    time = oxygen.time_to_oxygen(limit=0.3023, volume=0.040, **BOX)
    assert time == pytest.approx(300.0, abs=1.0)


def test_fresh_air_keeps_oxygen_at_its_limit() -> None:
    # 1 L/min × 76.5 ÷ 2.56 = 29.9 L/min for 23.5 vol%.
    fresh = oxygen.fresh_air_for_oxygen(flow=1.0, oxygen=1.0, limit=0.235, air_oxygen=0.2094)
    assert fresh == pytest.approx(29.88, abs=0.01)
    steady = oxygen.oxygen_steady(flow=1.0, oxygen=1.0, fresh_air=fresh, air_oxygen=0.2094)
    assert steady == pytest.approx(0.235)
    none = oxygen.fresh_air_for_oxygen(flow=1.0, oxygen=0.22, limit=0.235, air_oxygen=0.2094)
    assert none == 0.0


def test_oxygen_limit_may_never_be_passed() -> None:
    fan = BOX | {"fresh_air": np.array([0.0, 1e-3])}
    found = oxygen.time_to_oxygen(limit=0.235, volume=0.040, **fan)
    assert np.isfinite(found[0])
    assert found[1] == np.inf
    still = oxygen.oxygen_fraction(time=1e9, volume=0.04, **BOX | {"flow": 0.0})
    assert still == pytest.approx(0.2094)
