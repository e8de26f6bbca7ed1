"""The simulated flask beside other hands: Cantera where slow, equations written anew where fast.

Cantera knows no film at a bubble. Where reactions are slow the film does nothing, and gas that
enters and leaves is a source and a first-order loss, which Cantera does know.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp, sqrt
from typing import Any

import cantera as ct
import numpy as np
import pytest
from scipy.integrate import solve_ivp

from ozonewright.physics.liquid.batch import Tolerance, run_one
from ozonewright.physics.liquid.semibatch import Chain, Flask, SemiBatch, start_of

A = Chain(wanted=(0.3,), spoiling=(0.002, 0.0015), stripped=(0.0, 2e-5))
B = Chain(wanted=(0.6, 0.02), spoiling=(0.002, 0.002, 0.001), stripped=(0.0, 0.0, 1e-5))
FLASK = Flask(
    flow=1.3e-5, gas=0.25, volume=1e-4, partition=3.0, kl=2e-4, kg=1e9, diffusivity=1e-16,
    area_time=400.0, diffusivity_ratio=1.0, solvent=1e-4, chains=(A, B),
)  # fmt: skip
AMOUNTS = [60.0, 20.0]
TIMES = np.linspace(0.0, 21000.0, 43)
SPECIES = {
    "SUPPLY": 0, "O3": 0, "BACK": 0, "SOLVENT": 0, "A0": 1, "A1": 1, "AS0": 1, "AS1": 1, "AG": 1,
    "B0": 1, "B1": 1, "B2": 1, "BS0": 1, "BS1": 1, "BS2": 1, "BG": 1,
}  # fmt: skip
"""Carbon of each; oxygen follows from the ozone bound."""
BOUND = {
    "SUPPLY": 1, "O3": 1, "BACK": 1, "SOLVENT": 1, "A1": 1, "AS0": 1, "AS1": 2, "AG": 1, "B1": 1,
    "B2": 2, "BS0": 1, "BS1": 2, "BS2": 3, "BG": 2,
}  # fmt: skip
ATTACKS = {
    "A0 + O3 => A1": 0.3, "A0 + O3 => AS0": 0.002, "A1 + O3 => AS1": 0.0015,
    "B0 + O3 => B1": 0.6, "B1 + O3 => B2": 0.02, "B0 + O3 => BS0": 0.002,
    "B1 + O3 => BS1": 0.002, "B2 + O3 => BS2": 0.001,
}  # fmt: skip
"""Typed again, in m³ and mol."""
SOLID_START = 1e3
"""Of the supply; it is drawn at a fixed rate. [mol/m3]"""


def by_cantera(attacks: dict[str, float]) -> dict[str, np.ndarray]:
    """Return concentrations in mol/m³ by times."""
    species = []
    for name, carbon in SPECIES.items():
        atoms = {"C": carbon, "O": 3 * BOUND.get(name, 0)}
        one = ct.Species(name, {element: n for element, n in atoms.items() if n})
        one.thermo = ct.ConstantCp(200.0, 3000.0, ct.one_atm, (300.0, 0.0, 0.0, 3e4))
        species.append(one)
    passed = 1.3e-5 / 1e-4 * (1.0 - exp(-3.0 * 2e-4 * 400.0))
    enters = ct.Reaction(equation="SUPPLY => O3", rate=first(passed * 0.25 * 1e-3))
    enters.orders = {"SUPPLY": 0.0}
    slow = {"O3 => BACK": passed / 3.0, "O3 => SOLVENT": 1e-4, "A1 => AG": 2e-5, "B2 => BG": 1e-5}
    liquid = ct.Solution(
        thermo="ideal-gas", kinetics="gas", species=species,
        reactions=[
            enters,
            *(ct.Reaction(equation=text, rate=first(k)) for text, k in slow.items()),
            *(ct.Reaction(equation=text, rate=first(1e3 * k)) for text, k in attacks.items()),
        ],
    )  # fmt: skip
    start = {"SUPPLY": SOLID_START, "A0": 60.0, "B0": 20.0}
    whole = sum(start.values())
    liquid.TPX = 300.0, whole * 8.314462618 * 300.0, start
    vessel = ct.IdealGasReactor(liquid, energy="off", clone=False)
    net = ct.ReactorNet([vessel])
    net.rtol, net.atol = 1e-8, 1e-14
    out = [liquid.concentrations * 1e3]
    for time in TIMES[1:]:
        net.advance(float(time))
        out.append(liquid.concentrations * 1e3)
    return dict(zip(SPECIES, np.array(out).T, strict=True))


def first(k: float) -> ct.ArrheniusRate:
    return ct.ArrheniusRate(k, 0.0, 0.0)


def ours(flask: Flask) -> np.ndarray:
    start: list[Any] = start_of(flask=flask, amounts=AMOUNTS, zero=0.0)
    states = run_one(
        system=SemiBatch(flask), start=start, times=list(TIMES),
        tolerance=Tolerance(1e-7, [1e-11, *[1e-9] * (len(start) - 1)]),
    )  # fmt: skip
    return np.array(states).T


def compared(found: np.ndarray, whole: dict[str, np.ndarray]) -> float:
    """Return the largest difference over the largest figure of each state."""
    told = {
        0: whole["O3"], 1: whole["A0"], 2: whole["A1"], 3: whole["AS0"] + whole["AS1"],
        5: whole["AG"], 7: whole["B0"], 8: whole["B1"], 9: whole["B2"],
        10: whole["BS0"] + whole["BS1"] + whole["BS2"], 12: whole["BG"],
        14: SOLID_START - whole["SUPPLY"] - whole["BACK"], 16: whole["SOLVENT"],
    }  # fmt: skip
    return max(
        float(np.abs(found[place] - wanted).max() / np.abs(wanted).max())
        for place, wanted in told.items()
    )


def test_competing_sites_and_products_are_those_of_cantera() -> None:
    assert compared(ours(FLASK), by_cantera(ATTACKS)) < 1e-4


def test_a_product_that_is_left_alone_is_caught() -> None:
    forgotten = ATTACKS | {"B2 + O3 => BS2": 0.0005}
    assert compared(ours(FLASK), by_cantera(forgotten)) > 0.01


FAST = replace(
    FLASK, kg=0.02, diffusivity=1e-9, diffusivity_ratio=0.55, solvent=1e-4,
    chains=(
        Chain((300.0,), (2.0, 1.5), (0.0, 0.0)),
        Chain((600.0, 20.0), (2.0, 2.0, 1.0), (0.0, 0.0, 0.0)),
    ),
)  # fmt: skip


def fast(time: float, y: np.ndarray) -> list[float]:
    """The flask on paper: two films in series, E from E² = 1 + Ha²(Ei - E)/(Ei - 1)."""
    c, a0, a1, _, b0, b1, b2, *_ = y
    uses = [(302.0, a0), (1.5, a1), (602.0, b0), (22.0, b1), (1.0, b2)]
    demand = 1e-4 + abs(sum(k * left for k, left in uses))
    mean = sum(k * left * left for k, left in uses) / demand
    square = demand * 1e-9 / 2e-4**2
    most = 1.0 + (mean + 1e-12) * sqrt(0.55) / (3.0 * 0.25 + abs(c))
    half = square / (most - 1.0) / 2.0
    enhanced = -half + sqrt(half**2 + 1.0 + square * most / (most - 1.0))
    film = 1.0 / (1.0 / 0.02 + 1.0 / (3.0 * 2e-4 * enhanced))
    enters = 0.13 * (1.0 - exp(-film * 400.0)) * (0.25 - c / 3.0 / (1.0 + square))
    return [
        enters - demand * c,
        -302.0 * a0 * c, (300.0 * a0 - 1.5 * a1) * c, (2.0 * a0 + 1.5 * a1) * c,
        -602.0 * b0 * c, (600.0 * b0 - 22.0 * b1) * c, (20.0 * b1 - b2) * c,
        (2.0 * b0 + 2.0 * b1 + b2) * c, enters,
    ]  # fmt: skip


def test_fast_sites_agree_with_equations_written_anew() -> None:
    start = [0.0, 60.0, 0.0, 0.0, 20.0, 0.0, 0.0, 0.0, 0.0]
    with np.errstate(over="ignore"):
        done = solve_ivp(fast, (0.0, TIMES[-1]), start, method="Radau", t_eval=TIMES, rtol=1e-8,
                         atol=1e-11)  # fmt: skip
    found = ours(FAST)[[0, 1, 2, 3, 7, 8, 9, 10, 14]]
    scale = np.abs(done.y).max(axis=1)
    assert np.abs(found - done.y).max(axis=1) / scale == pytest.approx(0.0, abs=1e-3)


def test_indigo_in_excess_halves_ozone_in_its_time() -> None:
    """10 µmol/L of indigo at 9.4e7 L/(mol s): ln 2/(k c) = 0.737 ms (munoz_2000)."""
    shut = replace(FLASK, flow=0.0, gas=0.0, solvent=0.0,
                   chains=(Chain((9.4e4,), (0.0, 0.0), (0.0, 0.0)),))  # fmt: skip
    start: list[Any] = start_of(flask=shut, amounts=[0.01], zero=0.0)
    start[0] = 1e-6
    last = run_one(system=SemiBatch(shut), start=start, times=[0.0, 0.737e-3],
                   tolerance=Tolerance(1e-7, [1e-14] * len(start)))[-1]  # fmt: skip
    assert last[0] / 1e-6 == pytest.approx(0.5, rel=1e-3)
