"""Manley's equation and loops of charge against voltage, beside circuits worked out otherwise."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import simpson, solve_ivp

from ozonewright.errors import NotApplicable
from ozonewright.physics.generator.electrical import (
    discharge_power_manley_1943,
    gap_capacitance,
    ignition_voltage,
    peak_of_sine,
)
from ozonewright.physics.generator.loop import (
    energy_per_cycle,
    independent_count,
    left_over_energy,
    loop_area,
    mean_cycle,
    reactive_power,
    rising_crossings,
    top_share,
    top_share_of_sine,
)
from ozonewright.physics.generator.parallelogram import gap_voltage_of_sides, sides
from unit.loops import CELL, DIELECTRIC, GAP, GAP_VOLTAGE, PEAK, tube

CASE = {
    "frequency": 1e3,
    "dielectric_capacitance": DIELECTRIC,
    "gap_capacitance": GAP,
    "gap_voltage": GAP_VOLTAGE,
}


def test_manley_of_the_check_case() -> None:
    """G-04, by hand: 4 × 1 kHz × 200 pF × 3 kV × (8 − 1.25 × 3) kV = 10.2 W."""
    found = discharge_power_manley_1943(**CASE, peak_voltage=8e3)
    assert found == pytest.approx(10.2, rel=1e-9)
    rows = discharge_power_manley_1943(**CASE, peak_voltage=np.array([3.75e3, 8e3]))
    assert np.allclose(rows, [0.0, 10.2])


def test_ignition_by_hand() -> None:
    case = {name: CASE[name] for name in CASE if name != "frequency"}
    assert ignition_voltage(**case) == pytest.approx(3750.0)


def test_gap_from_the_series() -> None:
    """200 pF and 50 pF in series are 40 pF."""
    found = gap_capacitance(dielectric_capacitance=200e-12, cell_capacitance=40e-12)
    assert found == pytest.approx(50e-12)
    rows = gap_capacitance(dielectric_capacitance=np.array([200e-12]), cell_capacitance=40e-12)
    assert np.allclose(rows, 50e-12)
    with pytest.raises(NotApplicable):
        gap_capacitance(dielectric_capacitance=40e-12, cell_capacitance=40e-12)


def test_peak_of_a_sine() -> None:
    """230 V rms has a peak of 325 V."""
    assert peak_of_sine(rms_voltage=230.0) == pytest.approx(325.27, abs=0.01)


def test_area_of_figures_of_known_area() -> None:
    """A rectangle of 2 V by 3 C; an ellipse of half axes 2 and 3 has 6 π."""
    v, q = np.array([0.0, 2.0, 2.0, 0.0, 0.0]), np.array([0.0, 0.0, 3.0, 3.0, 0.0])
    assert loop_area(voltage=v + 7.0, charge=q - 5.0) == pytest.approx(6.0)
    assert loop_area(voltage=v[::-1], charge=q[::-1]) == pytest.approx(-6.0)
    turn = np.linspace(0.0, 2.0 * np.pi, 5001)
    area = loop_area(voltage=2.0 * np.cos(turn), charge=3.0 * np.sin(turn))
    assert area == pytest.approx(6.0 * np.pi, rel=1e-5)


@pytest.mark.parametrize("form", ["sine", "triangle"])
def test_the_loop_of_two_capacitors_has_manleys_power(form: str) -> None:
    """The circuit is stepped through in tests/unit/loops.py, without Manley's equation."""
    time, voltage, charge = tube(cycles=6, samples=2000, form=form)
    bounds = rising_crossings(time=time, voltage=voltage)[1:]
    found = energy_per_cycle(time=time, voltage=voltage, charge=charge, bounds=bounds)
    expected = discharge_power_manley_1943(**CASE, peak_voltage=PEAK) / 1e3
    assert found == pytest.approx(expected, rel=1e-4)
    assert np.diff(bounds) == pytest.approx(1e-3, rel=1e-5)


def test_the_area_is_the_integral_of_voltage_and_current() -> None:
    """A resistor beside a capacitor: V²/2R by hand, and by Simpson over v·i (scipy)."""
    omega, resistance, capacitance, top = 2e3 * np.pi, 2e6, 150e-12, 6e3
    solved = solve_ivp(
        lambda t, _: [capacitance * top * omega * np.cos(omega * t)
                      + top * np.sin(omega * t) / resistance],
        (0.0, 4e-3), [0.0], t_eval=np.linspace(0.0, 4e-3, 4001), rtol=1e-10, atol=1e-16,
    )  # fmt: skip
    time, charge = solved.t, solved.y[0]
    voltage = top * np.sin(omega * time)
    current = capacitance * top * omega * np.cos(omega * time) + voltage / resistance
    bounds = rising_crossings(time=time, voltage=voltage)
    energy = energy_per_cycle(time=time, voltage=voltage, charge=charge, bounds=bounds)
    power = energy.sum() / (bounds[-1] - bounds[0])
    assert power == pytest.approx(top**2 / (2.0 * resistance), rel=1e-4)
    assert power == pytest.approx(simpson(voltage * current, x=time) / 4e-3, rel=1e-4)
    one = time <= 1e-3
    reactive = reactive_power(time=time[one], voltage=voltage[one], charge=charge[one])
    assert reactive == pytest.approx(0.5 * omega * capacitance * top**2, rel=1e-3)


def test_what_a_phase_between_channels_does() -> None:
    time, voltage, _ = tube(cycles=1, samples=4000)
    charge = CELL * voltage
    late = np.interp(time - time[-1] / 3600.0, time, charge, period=time[-1])
    power = loop_area(voltage=voltage, charge=late) / time[-1]
    reactive = reactive_power(time=time, voltage=voltage, charge=charge)
    assert abs(power) == pytest.approx(reactive * 2.0 * np.pi / 3600.0, rel=0.01)


def test_crossings_are_one_for_each_cycle_in_noise() -> None:
    time, voltage, _ = tube(cycles=20, samples=500)
    noise = np.random.default_rng(3).normal(0.0, 0.05 * PEAK, len(time))
    assert len(rising_crossings(time=time, voltage=voltage + noise)) in (19, 20)
    assert len(rising_crossings(time=time, voltage=np.full_like(time, 3.0))) == 0


def test_sides_give_the_capacitors_back() -> None:
    _, voltage, charge = tube(cycles=3, samples=2000)
    begin = int(np.argmin(voltage[2000:4000])) + 2000
    end = begin + int(np.argmax(voltage[begin : begin + 1100]))
    found = sides(voltage=voltage[begin : end + 1], charge=charge[begin : end + 1])
    assert found.flat == pytest.approx(CELL, rel=2e-3)
    assert found.steep == pytest.approx(DIELECTRIC, rel=2e-3)
    assert found.corner_voltage == pytest.approx(-PEAK + 2.0 * 1.25 * GAP_VOLTAGE, rel=0.02)
    assert found.residual < 1e-3 * np.ptp(charge)
    assert found.corner_charge == pytest.approx(
        charge[begin] + CELL * (found.corner_voltage + PEAK), rel=0.01
    )
    with pytest.raises(NotApplicable):
        sides(voltage=voltage[:9], charge=charge[:9])


def test_the_top_of_a_channel() -> None:
    """A sine of 200 steps: arccos(0.99)/π = 4.5 % by hand; cut at 0.95: arccos(0.95)/π = 10 %."""
    assert top_share_of_sine(step=1.0, swing=200.0) == pytest.approx(0.0451, abs=1e-4)
    turn = np.linspace(0.0, 2.0 * np.pi, 20000, endpoint=False)
    digital = np.floor(100.0 * np.sin(turn))
    assert top_share(values=digital[digital < 100.0]) == pytest.approx(0.0451, abs=5e-4)
    assert top_share(values=np.minimum(np.sin(turn), 0.95)) == pytest.approx(0.101, abs=1e-3)


def test_half_the_breadth_is_the_gap_voltage() -> None:
    """Q = 200 pF (V − 3 kV) passes 0 C at 3 kV, and Q = 200 pF (V + 3 kV) at −3 kV."""
    found = gap_voltage_of_sides(
        rising_voltage=5e3, rising_charge=200e-12 * 2e3, rising_slope=200e-12,
        falling_voltage=-5e3, falling_charge=np.array([-200e-12 * 2e3]), falling_slope=200e-12,
        charge=0.0,
    )  # fmt: skip
    assert found == pytest.approx(3e3)


def test_the_mean_cycle_is_a_cycle() -> None:
    time, voltage, _ = tube(cycles=5, samples=1000)
    bounds = np.array([0.0, 1e-3, 2e-3, 3e-3])
    found = mean_cycle(time=time, values=voltage, bounds=bounds, points=101)
    assert found == pytest.approx(PEAK * np.sin(np.linspace(0.0, 2.0 * np.pi, 101)), abs=1.0)


def test_what_cycles_leave_over() -> None:
    """Equal energies of 1 J in 1 s and 3 s: 0.5 W in the mean, so +0.5 J and −0.5 J."""
    found = left_over_energy(energies=np.array([1.0, 1.0]), periods=np.array([1.0, 3.0]))
    assert found == pytest.approx([0.5, -0.5])


def test_how_much_neighbours_are_worth() -> None:
    """White noise counts in full; a first-order process of r = 0.8 counts (1 − r)/(1 + r) = 1/9."""
    rng = np.random.default_rng(5)
    white = rng.normal(size=9000)
    assert independent_count(values=white) == pytest.approx(9000, rel=0.05)
    tied = np.empty_like(white)
    tied[0] = white[0]
    for place in range(1, len(white)):
        tied[place] = 0.8 * tied[place - 1] + white[place]
    assert independent_count(values=tied) == pytest.approx(1000, rel=0.1)
    assert independent_count(values=np.ones(5)) == 5.0
    assert independent_count(values=np.arange(20.0)) == 2.0
