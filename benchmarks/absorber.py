"""The simulated run: one by itself, and a thousand draws against ready-made serial solvers.

The serial solvers do a sample of the draws with the same rates, times and tolerances; their time is
scaled to a thousand. The difference is of that sample, each state over its largest value.
"""

from __future__ import annotations

from dataclasses import dataclass
from time import process_time
from typing import Any

import numpy as np
from figure import Figure
from scipy.integrate import odeint, solve_ivp

from ozonewright.physics.liquid.batch import Tolerance, run_batch, run_one
from ozonewright.physics.liquid.semibatch import Chain, Flask, SemiBatch, start_of
from ozonewright.units import Kind, number

DRAWS, SAMPLE = 1000, 20
RELATIVE = 1e-4
DISSOLVED, OTHER = 1e-10, 1e-7
SUBSTRATE = 100.0
"""[mol/m3]"""
TIMES = np.linspace(0.0, 6000.0, 61)
FLASK = Flask(
    flow=1.3e-5, gas=0.25, volume=1e-4, partition=3.0, kl=2e-4, kg=0.02, diffusivity=1e-9,
    area_time=400.0, diffusivity_ratio=0.55, solvent=1e-4,
    chains=(Chain((300.0,), (2.0, 1.5), (1e-5, 1e-6)),), liquid=2e4, drying=2e-5,
)  # fmt: skip
SPREAD = {"flow": 0.1, "gas": 0.05, "partition": 0.5, "kl": 0.3, "kg": 0.3, "area_time": 0.3}


@dataclass(frozen=True)
class Drawn:
    """A flask of many draws, and each by itself."""

    many: Flask
    start: np.ndarray

    def one(self, place: int) -> SemiBatch:
        """Return one draw by plain floats."""
        return SemiBatch(self.many.of(lambda figure: float(figure[place])))


def drawn() -> Drawn:
    """Return a thousand flasks: rate constants over four decades, transfer by a third."""
    rng = np.random.default_rng(0)

    def spread(name: str, value: Any) -> Any:
        return value * np.exp(SPREAD.get(name, 0.0) * rng.standard_normal(DRAWS))

    many = FLASK.of(lambda figure: np.full(DRAWS, figure))
    fields = {name: spread(name, getattr(FLASK, name)) for name in SPREAD}
    rates = 300.0 * 10.0 ** rng.uniform(-2.0, 2.0, DRAWS)
    spoiling = tuple(2.0 * 10.0 ** rng.uniform(-1.0, 1.0, DRAWS) for _ in range(2))
    chain = Chain((rates,), spoiling, many.chains[0].stripped)
    many = type(many)(**{**{name: getattr(many, name) for name in many.__slots__}, **fields,
                         "chains": (chain,)})  # fmt: skip
    start = np.stack(start_of(flask=many, amounts=[SUBSTRATE], zero=np.zeros(DRAWS)))
    return Drawn(many, start)


def main() -> list[Figure]:
    """Return times, ratios and the largest difference."""
    lot = drawn()
    states = lot.start.shape[0]
    tolerance = Tolerance(RELATIVE, [DISSOLVED * SUBSTRATE, *[OTHER * SUBSTRATE] * (states - 1)])
    single = SemiBatch(FLASK)
    begin = start_of(flask=FLASK, amounts=[SUBSTRATE], zero=0.0)
    ones = [_timed(lambda: run_one(system=single, start=begin, times=list(TIMES),
                                   tolerance=tolerance))[0] for _ in range(9)]  # fmt: skip

    def solve() -> np.ndarray:
        return run_batch(
            system=lambda where: SemiBatch(lot.many.of(lambda figure: figure[where])),
            start=lot.start, times=TIMES, tolerance=tolerance,
        )  # fmt: skip

    batch = min(_timed(solve)[0] for _ in range(3))
    found = solve()
    serial, stepping, worst = 0.0, 0.0, 0.0
    for place in range(SAMPLE):
        made, at = lot.one(place), lot.start[:, place]
        took, _ = _timed(lambda made=made, at=at: odeint(
            lambda y, _: made.rates(list(y)), at, TIMES, rtol=RELATIVE,
            atol=list(tolerance.absolute)))  # fmt: skip
        serial += took
        took, _ = _timed(lambda made=made, at=at: solve_ivp(
            lambda _, y: made.rates(list(y)), (0.0, TIMES[-1]), at, method="BDF", t_eval=TIMES,
            rtol=RELATIVE, atol=list(tolerance.absolute)))  # fmt: skip
        stepping += took
        exact = solve_ivp(lambda _, y, made=made: made.rates(list(y)), (0.0, TIMES[-1]), at,
                          method="Radau", t_eval=TIMES, rtol=1e-9, atol=1e-12).y.T  # fmt: skip
        scale = np.maximum(np.abs(exact).max(axis=0), 1e-6 * SUBSTRATE)
        worst = max(worst, float((np.abs(found[:, :, place] - exact) / scale).max()))
    share = DRAWS / SAMPLE
    return [
        Figure("one run, median, processor", number(float(np.median(ones)), Kind.TIME, "ms"), "ms",
               at_most=20.0),
        Figure("a thousand runs at once, processor", batch, "s"),
        Figure("odeint one by one over that", share * serial / batch, at_least=5.0),
        Figure("solve_ivp BDF one by one over that", share * stepping / batch, at_least=50.0),
        Figure("largest scaled difference from Radau, 20 runs", worst, "1", at_most=1e-3),
    ]  # fmt: skip


def _timed(act: Any) -> tuple[float, Any]:
    start = process_time()
    done = act()
    return process_time() - start, done
