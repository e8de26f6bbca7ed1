"""The generator's model: one point, a fit of 12 runs, a map, and the whole scheme beside it.

Times are of this process (the machine may be shared), the ratio is of one run of this file.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import process_time

import numpy as np
from figure import Figure

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from ozonewright.physics.generator.discharge import Lumped, discharge
from ozonewright.questions.generator.fit import fitted
from ozonewright.questions.generator.lumped import unknowns_of
from ozonewright.questions.generator.map import mapped
from ozonewright.questions.generator.model import modelled
from unit.full_scheme import integrated
from unit.tubes import point, tube

LUMPED = Lumped(0.1, 8.0, 0.32, 0.01)
PLACE = {"oxygen": 0.2094, "nitrogen": 0.7808, "temperature": 330.0, "pressure": 101325.0}
SIDE = 200


def main() -> list[Figure]:
    """Return times and ratios."""
    return [*_points(), *_fit_and_map()]


def _points() -> list[Figure]:
    powers = np.linspace(5.0, 60.0, 20)
    rest = {**PLACE, "flow": 7.4e-4, "water": 1e-3, "volume": 20e-6}
    begun = process_time()
    for power in powers:
        discharge(power=float(power), **rest, lumped=LUMPED)
    one = (process_time() - begun) / len(powers)
    begun = process_time()
    many = np.linspace(5.0, 60.0, 8192)
    discharge(power=many, **rest, lumped=LUMPED)
    each = (process_time() - begun) / len(many)
    begun = process_time()
    for power in powers:
        integrated(power=float(power), **rest, efficiency=0.1, loss=8.0, share=0.32, nox=0.01)
    whole = (process_time() - begun) / len(powers)
    return [
        Figure("one operating point, damp air", 1e3 * one, "ms", at_most=1.0),
        Figure("the whole scheme over one point alone", whole / one, at_least=100.0),
        Figure("the whole scheme over a point of many at once", whole / each, at_least=100.0),
    ]


def _fit_and_map() -> list[Figure]:
    places = [
        point(litres, power=power, wall=wall)
        for litres in (0.4, 0.8, 2.0)
        for power in (20.0, 38.0)
        for wall in (310.0, 345.0)
    ]
    lumped = unknowns_of(places)
    truth = np.full((1, len(lumped.names)), 0.3)
    rates = modelled(lumped, truth, places).rate[0] * 47.997 * 3600.0
    runs = [
        tube(str(number), place, float(rate))
        for number, (place, rate) in enumerate(zip(places, rates, strict=True))
    ]
    begun = process_time()
    fit = fitted(runs)
    fitting = process_time() - begun
    flows, powers = np.geomspace(2e-4, 3e-3, SIDE), np.linspace(10.0, 60.0, SIDE)
    spent = []
    for feed in ("oxygen", "air"):
        begun = process_time()
        mapped(fit, point(0.8, feed=feed), flows, powers)
        spent.append(process_time() - begun)
    return [
        Figure("fit of 12 runs with intervals", fitting, "s", at_most=5.0),
        Figure("map of 200 × 200 with intervals, concentrator oxygen", spent[0], "s", at_most=5.0),
        Figure("map of 200 × 200 with intervals, dry air", spent[1], "s", at_most=5.0),
    ]
