"""Bottles minute by minute: against closed forms, an independent solver, and their own books."""

from __future__ import annotations

from dataclasses import replace
from math import exp, sqrt

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from ozonewright.physics.liquid.course import course_of_train, time_to_level
from ozonewright.physics.liquid.swarm import Column, filling_time, hatta_of, share_left
from unit.test_absorber import ask, rig, single, value

GAS = 0.25
"""Ozone in the gas sent in. [mol/m3]"""
WATER = Column(
    bubble=3e-3, rise=0.2516, depth=0.15, volume=2e-4, flow=1.333e-5, partition=0.2861,
    kl=4.271e-4, kg=1e3, diffusivity=1.708e-9,
)  # fmt: skip
SENT = WATER.flow * GAS
IODIDE = replace(
    WATER, kg=0.033, reactant=12.0, per_ozone=2.0, rate_constant=3.06e6, diffusivity_ratio=1.17
)


def test_two_bottles_of_water_fill_like_tanks_in_series() -> None:
    """c1 = 1 - e^-x; what leaves it is 1 - u e^-x, so c2 = 1 - e^-x - u x e^-x, by hand."""
    tau = float(filling_time(column=WATER, gas=GAS))
    taken = 1.0 - float(share_left(column=WATER, gas=GAS, dissolved=0.0))
    times = np.linspace(0.0, 4.0 * tau, 61)
    found = course_of_train(columns=[WATER, WATER], ozone=SENT, times=times)
    x, full = times / tau, WATER.partition * GAS
    assert found.dissolved[:, 0] / full == pytest.approx(1.0 - np.exp(-x), abs=1e-9)
    second = 1.0 - np.exp(-x) - taken * x * np.exp(-x)
    assert found.dissolved[:, 1] / full == pytest.approx(second, abs=1e-3)
    # pure stripping: a liquid fuller than the gas, without ozone in the gas, gives it all back
    assert found.passing[-1].prod() == pytest.approx(1.0, abs=0.01)


def test_the_gas_film_alone_uses_iodide_in_a_straight_line() -> None:
    """Instantaneous: uptake is 1 - exp(-kG 6/d t) until the iodide is gone, then water fills."""
    made = replace(IODIDE, reactant=2e3, rate_constant=1e9, kg=0.005)
    units = 0.005 * 6.0 / 3e-3 * 0.15 / 0.2516
    taken = 1.0 - exp(-units)
    end = 2e3 * made.volume / 2.0 / (SENT * taken)
    found = course_of_train(columns=[made], ozone=SENT, times=np.linspace(0.0, 0.9 * end, 31))
    assert found.passing[:, 0] == pytest.approx(exp(-units), abs=1e-4)
    assert found.reactant[-1, 0] == pytest.approx(0.1 * 2e3, rel=0.03)


def test_a_fast_reaction_uses_its_reactant_along_a_parabola() -> None:
    """E = Ha ~ c^1/2 and little uptake: c^1/2 falls in a straight line, by hand."""
    made = replace(WATER, kg=1e9, reactant=40.0, rate_constant=1e3, bubble=0.2, per_ozone=1.0)
    sent = made.flow * GAS * 1e-3  # thin gas: the reactant's supply is no limit
    number = float(hatta_of(column=made))
    assert number > 15.0
    rate = number * made.kl * made.partition * 6.0 / made.bubble * made.depth / made.rise * sent
    slope = rate / made.volume / (2.0 * sqrt(40.0))
    until = 0.7 * sqrt(40.0) / slope
    found = course_of_train(columns=[made], ozone=sent, times=np.linspace(0.0, until, 41))
    wanted = (sqrt(40.0) - slope * found.times) ** 2
    assert found.taken[1, 0] / (sent * found.times[1]) < 0.05
    assert found.reactant[:, 0] == pytest.approx(wanted, rel=0.05)


def test_two_bottles_agree_with_an_independent_solver() -> None:
    """Slow reaction in two bottles: the equations written anew, by scipy's Radau."""
    made = replace(WATER, kg=1e9, reactant=0.5, rate_constant=0.5, diffusivity_ratio=1.0)
    units = made.kl * made.partition * 6.0 / made.bubble * made.depth / made.rise
    taken = 1.0 - exp(-units)

    def rates(_: float, y: np.ndarray) -> list[float]:
        out, arriving = [], GAS
        for c, b in (y[:2], y[2:]):
            enter = made.flow * taken * (arriving - c / made.partition)
            used = 0.5 * c * b
            out += [enter / made.volume - used, -used]
            arriving -= enter / made.flow
        return out

    times = np.linspace(0.0, 120.0, 121)
    done = solve_ivp(rates, (0.0, 120.0), [0.0, 0.5] * 2, method="Radau", t_eval=times, rtol=1e-9,
                     atol=1e-12)  # fmt: skip
    found = course_of_train(columns=[made, made], ozone=SENT, times=times)
    for place in (0, 1):
        assert found.dissolved[:, place] == pytest.approx(done.y[2 * place], abs=6e-4)
        assert found.reactant[:, place] == pytest.approx(done.y[2 * place + 1], abs=4e-3)


def test_nothing_goes_missing_and_more_steps_change_little() -> None:
    end = 1.6 * 2.0 * 12.0 * 2e-4 / 2.0 / SENT
    train = [IODIDE, replace(IODIDE, reactant=np.array([12.0, 3.0])), WATER]
    coarse = course_of_train(columns=train, ozone=SENT, times=np.linspace(0.0, end, 73))
    fine = course_of_train(columns=train, ozone=SENT, times=np.linspace(0.0, end, 1009))
    for found in (coarse, fine):
        used = (found.reactant[0] - found.reactant) / np.array([2.0, 2.0, 1.0])[:, None]
        volume = 2e-4
        held = (used + found.dissolved) * volume
        assert found.taken == pytest.approx(held, rel=1e-9, abs=1e-15)
    assert coarse.reactant / 12.0 == pytest.approx(fine.reactant[::14] / 12.0, abs=0.01)
    assert (np.diff(coarse.reactant, axis=0) <= 1e-12).all()
    # the second bottle rests until the first lets ozone pass
    assert coarse.reactant[20, 1, 0] == pytest.approx(12.0, rel=1e-3)


def test_time_to_a_level_is_straight_between_times() -> None:
    times = np.array([0.0, 10.0, 20.0])
    values = np.array([[1.0, 1.0, 0.2], [0.6, 1.0, 0.1], [0.0, 1.0, 0.0]])
    assert time_to_level(times=times, values=values, level=0.3) == pytest.approx([15.0, 20.0, 0.0])


def test_a_guard_lasts_from_when_it_is_needed() -> None:
    found = ask(rig(potassium_iodide="0.40 g", tube_bore=None, tube_pore="100 µm"))
    first, second = found.bottles
    # 0.40 g is 2.41 mmol, for 1.205 mmol of ozone: 5.78 min of 12.5 mmol/h each
    # at the least, for uptake falls before the iodide is gone
    whole = 5.78 * 60.0
    assert whole < value(first.lasts) < 1.2 * whole
    assert 2.0 * whole < value(second.lasts) < 2.3 * whole
    assert value(first.lasts) < value(found.breaks) < value(second.lasts)
    ends = {row.bottle: row for row in found.course}
    assert ends["guard"].left == pytest.approx(0.0, abs=1e-6)
    assert ends["guard"].slip == pytest.approx(value(found.output), rel=0.05)


def test_water_fills_from_the_start_and_never_breaks_through() -> None:
    found = ask(single())
    assert found.breaks is None
    slips = [row.slip or 0.0 for row in found.course]
    assert slips == sorted(slips)
    assert found.course[-1].left is None
    dissolved = [row.dissolved or 0.0 for row in found.course]
    assert dissolved[-1] == pytest.approx(value(found.bottles[0].dissolved), rel=0.06)


def test_a_reactant_that_is_never_used_up_is_not_said_to_last() -> None:
    slow = single(
        liquid="ethyl acetate", bath="-20 °C", substrate="1.0 mol/L", rate_constant="1e-6 L/mol/s"
    )
    found = ask(slow)
    assert found.bottles[0].lasts is None
    assert found.bottles[0].fills is None
