"""Monte Carlo of one titration run: against bare numpy, and against the `uncertainties` package.

The run is that of the design document: iodate standard, two bottles, one reagent blank, four
minutes; rate in kg/s. Bare numpy draws the same inputs and evaluates the same formula, no more:
no mean, no interval, no check. All ratios are of times taken in one process, in turn.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from math import sqrt
from statistics import median
from time import perf_counter

import numpy as np
from figure import Figure
from uncertainties import ufloat

from ozonewright.uncertain import Measured, from_tolerance, monte_carlo, propagate
from ozonewright.units import Kind

DRAWS = 1_000_000
LOOP = 3_000
REPEATS = 7
OZONE, IODATE = 0.047997, 0.2139998
"""Molar masses. [kg/mol]"""


def rate(mass, purity, flask, aliquot, standard_titre, titre_1, titre_2, blank, on_time):
    """Return ozone collected per second. [kg/s]

    Six thiosulfate per iodate, two per ozone; volumes in m³, masses in kg, time in s.
    """
    titrant = 6.0 * mass * purity / IODATE * aliquot / flask / standard_titre
    ozone = 0.5 * titrant * (titre_1 - blank + titre_2 - blank) * OZONE
    return ozone / on_time


def _glass(name: str, millilitres: float, tolerance: float) -> Measured:
    return from_tolerance(millilitres * 1e-6, tolerance * 1e-6, "triangular", name, Kind.VOLUME)


INPUTS = {
    "mass": Measured(0.8917e-3, 0.0002e-3, "iodate mass", Kind.MASS),
    "purity": from_tolerance(0.9995, 0.0005, "rectangular", "purity", Kind.MASS_FRACTION),
    "flask": _glass("flask", 250.0, 0.15),
    "aliquot": _glass("pipette", 10.0, 0.02),
    "standard_titre": _glass("standard titre", 19.62, 0.05),
    "titre_1": _glass("titre 1", 28.46, 0.05),
    "titre_2": _glass("titre 2", 1.02, 0.05),
    "blank": _glass("blank", 0.18, 0.05),
    "on_time": Measured(240.0, 1.5, "on-time", Kind.TIME),
}


NORMAL = {key: replace(one, shape="normal") for key, one in INPUTS.items()}
"""The same with every input normal, where numpy has no slow shape that we draw faster."""


def bare(inputs: Mapping[str, Measured], seed: int) -> np.ndarray:
    """Draw and evaluate as one would by hand, without chunks."""
    stream = np.random.default_rng(seed)
    drawn = {}
    for key, one in inputs.items():
        if one.shape == "normal":
            drawn[key] = stream.normal(one.value, one.u, DRAWS)
        elif one.shape == "rectangular":
            half = one.u * sqrt(3.0)
            drawn[key] = stream.uniform(one.value - half, one.value + half, DRAWS)
        else:
            half = one.u * sqrt(6.0)
            drawn[key] = stream.triangular(one.value - half, one.value, one.value + half, DRAWS)
    return rate(**drawn)


def loop() -> float:
    """Return the last uncertainty of a loop over the `uncertainties` package."""
    last = 0.0
    for _ in range(LOOP):
        known = {key: ufloat(one.value, one.u) for key, one in INPUTS.items()}
        last = rate(**known).std_dev
    return last


def main() -> list[Figure]:
    """Return the figures of issue 2 and the times behind them."""
    times: dict[str, list[float]] = {}
    for seed in range(REPEATS):
        # In turn, so that a slow spell of the machine strikes all of them.
        acts: dict[str, Callable[[], object]] = {
            "bare": partial(bare, INPUTS, seed),
            "ours": partial(monte_carlo, rate, INPUTS, draws=DRAWS, seed=seed),
            "bare normal": partial(bare, NORMAL, seed),
            "ours normal": partial(monte_carlo, rate, NORMAL, draws=DRAWS, seed=seed),
            "loop": loop,
            "first": partial(propagate, rate, INPUTS),
        }
        for name, act in acts.items():
            start = perf_counter()
            act()
            times.setdefault(name, []).append(perf_counter() - start)

    def ratio(a: str, b: str) -> float:
        return median(x / y for x, y in zip(times[a], times[b], strict=True))

    widths = monte_carlo(rate, INPUTS, draws=DRAWS).u / propagate(rate, INPUTS).u
    return [
        Figure("Monte Carlo over bare numpy, 10⁶ draws", ratio("ours", "bare"), at_most=2.0),
        Figure("the same, every input normal", ratio("ours normal", "bare normal"), at_most=2.0),
        Figure(
            "faster per draw than a loop over `uncertainties`",
            ratio("loop", "ours") * DRAWS / LOOP,
            at_least=200.0,
        ),
        Figure("Monte Carlo, 10⁶ draws", 1e3 * median(times["ours"]), "ms"),
        Figure("bare numpy, 10⁶ draws", 1e3 * median(times["bare"]), "ms"),
        Figure("`uncertainties`, one evaluation", 1e6 * median(times["loop"]) / LOOP, "µs"),
        Figure("first order with budget, one call", 1e6 * median(times["first"]), "µs"),
        Figure("u by Monte Carlo over u by first order", widths, ""),
    ]
