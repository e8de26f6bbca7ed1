"""Do the intervals of the generator's map hold? Worlds drawn from what is thought beforehand.

Each world is a generator of known constants and five runs of it, read with noise. The fit knows the
readings alone; counted is how often its 95 % hold the truth. Worlds of the unit test are others.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from multiprocessing import get_context
from pathlib import Path

import numpy as np
from figure import Figure
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from ozonewright.questions.generator.fit import fitted
from ozonewright.questions.generator.lumped import Lumped, unknowns_of
from ozonewright.questions.generator.model import modelled
from unit.tubes import point, tube

WORLDS = 60
FIRST, APART = 20_000, 1000
"""First seed, and how far those of two plans are apart: plans share no world."""
READ = 0.01
"""What the readings of a run leave open."""
ENDS = (2.5, 97.5)
NOMINAL = 0.95
WORKERS = 2
PLANS = {
    "concentrator oxygen, two walls": [
        point(0.4), point(0.8, wall=345.0), point(0.8, wall=310.0), point(2.0), point(2.0),
    ],
    "dry air": [
        point(0.6, feed="air"), point(1.5, feed="air", wall=345.0), point(1.5, feed="air"),
        point(4.0, feed="air"), point(4.0, feed="air"),
    ],
    "one run": [point(0.8)],
    "no wall read": [point(0.4, wall=None), point(0.8, wall=None), point(2.0, wall=None)],
}  # fmt: skip
WANTED = {
    "another flow and wall": {"litres": 1.2, "wall": 320.0},
    "twice the highest flow or more": {"litres": 4.0},
    "a low flow": {"litres": 0.3},
    "half more power": {"litres": 1.0, "power": 57.0},
}
Held = Mapping[str, bool]


def main() -> list[Figure]:
    """Return the share of intervals that hold the truth, by plan and by what is predicted."""
    tasks = [
        (plan, FIRST + APART * place + number)
        for number in range(WORLDS)
        for place, plan in enumerate(PLANS)
    ]
    worlds: dict[str, list[Held]] = {plan: [] for plan in PLANS}
    with get_context("spawn").Pool(WORKERS) as pool:
        for (plan, seed), world in zip(tasks, pool.imap(_held, tasks), strict=True):
            worlds[plan].append(world)
            missed = [name for name, held in world.items() if not held]
            print(f"{plan} {seed}: missed {missed}", file=sys.stderr, flush=True)
    return [
        Figure(
            f"{plan}: {name}",
            100.0 * float(np.mean([world[name] for world in found])),
            "%",
            at_least=_least(),
        )
        for plan, found in worlds.items()
        for name in found[0]
    ]


def _held(task: tuple[str, int]) -> Held:
    return held(*task)


def _least() -> float:
    """Return three standard deviations of the count below 95 %."""
    return 100.0 * (NOMINAL - 3.0 * (NOMINAL * (1.0 - NOMINAL) / WORLDS) ** 0.5)


def held(plan: str, seed: int) -> Held:
    """Return which 95 % intervals hold the truth of one world."""
    places = PLANS[plan]
    feed = "air" if places[0].nitrogen > 0.5 else "oxygen"
    wanted = [point(**{"feed": feed, **place}) for place in WANTED.values()]
    lumped = unknowns_of([*places, *wanted])
    random = np.random.default_rng(seed)
    truth = _truth(random, lumped, [*places, *wanted])
    spread = np.hypot(lumped.values(truth)["scatter"][0, 0], READ)
    rates = modelled(lumped, truth, places).rate[0]
    rates = rates * np.exp(spread * random.standard_normal(len(places)))
    runs = [
        tube(str(number), place, rate * 47.997 * 3600.0, READ)
        for number, (place, rate) in enumerate(zip(places, rates, strict=True))
    ]
    draws = fitted(runs, wanted).draws
    made, true = modelled(lumped, draws, wanted).rate, modelled(lumped, truth, wanted).rate[0]
    found = {name: _within(made[:, k], true[k]) for k, name in enumerate(WANTED)}
    found["twice the flow over one"] = _within(made[:, 1] / made[:, 0], true[1] / true[0])
    for name in ("efficiency", "loss", "scatter"):
        column = lumped.names.index(name)
        found[name] = _within(draws[:, column], truth[0, column])
    return found


def _truth(
    random: np.random.Generator, lumped: Lumped, places: list[object]
) -> NDArray[np.float64]:
    """Return constants that a generator may have: some ozone, no efficiency of 1, no fire."""
    while True:
        truth: NDArray[np.float64] = random.standard_normal((1, len(lumped.names)))
        values = lumped.values(truth)
        warm = 345.0 + 57.0 * values["warmth"][0, 0] + values["wall_rise"][0, 0]
        if values["efficiency"][0, 0] < 1.0 and warm < 600.0:
            return truth


def _within(draws: NDArray[np.float64], true: float) -> bool:
    low, high = np.percentile(draws, ENDS)
    return bool(low <= true <= high)
