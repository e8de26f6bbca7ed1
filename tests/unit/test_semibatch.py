"""The simulated flask: against an independent solver, closed forms, and its own books."""

from __future__ import annotations

from dataclasses import replace
from math import exp
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from ozonewright.errors import NotConverged
from ozonewright.physics.liquid import batch
from ozonewright.physics.liquid.batch import Tolerance, run_batch, run_one
from ozonewright.physics.liquid.books import books
from ozonewright.physics.liquid.contact import contact_for_uptake, uptake_until_done
from ozonewright.physics.liquid.enhancement import warmed_rate
from ozonewright.physics.liquid.iodide_trap import colouring_time
from ozonewright.physics.liquid.rodas import rodas_step
from ozonewright.physics.liquid.semibatch import Chain, Flask, SemiBatch, start_of

TWO_BONDS = Chain(wanted=(600.0, 20.0), spoiling=(2.0, 2.0, 1.0), stripped=(0.0, 0.0, 1e-6))
FLASK = Flask(
    flow=1.3e-5, gas=0.25, volume=1e-4, partition=3.0, kl=2e-4, kg=0.02, diffusivity=1e-9,
    area_time=400.0, diffusivity_ratio=0.55, solvent=1e-4,
    chains=(Chain((300.0,), (2.0, 1.5), (1e-4, 1e-6)), TWO_BONDS), liquid=1e4, drying=6e-5,
)  # fmt: skip
AMOUNTS = [60.0, 20.0]
TIMES = list(np.linspace(0.0, 6000.0, 41))


def begin(flask: Flask) -> list[Any]:
    return start_of(flask=flask, amounts=AMOUNTS[: len(flask.chains)], zero=0.0)


def close(flask: Flask, relative: float = 1e-6) -> Tolerance:
    return Tolerance(relative, [1e-10, *[1e-8] * (len(begin(flask)) - 1)])


def by_radau(flask: Flask, times: list[float]) -> np.ndarray:
    """The same rates by scipy's Radau."""
    made = SemiBatch(flask)
    with np.errstate(over="ignore"):  # its own difference for the Jacobian overflows
        done = solve_ivp(
            lambda _, y: made.rates(list(y)), (times[0], times[-1]), begin(flask), method="Radau",
            t_eval=times, rtol=1e-9, atol=1e-12,
        )  # fmt: skip
    return np.asarray(done.y.T)


def test_one_run_agrees_with_radau() -> None:
    found = np.array(run_one(system=SemiBatch(FLASK), start=begin(FLASK), times=TIMES,
                             tolerance=close(FLASK)))  # fmt: skip
    wanted = by_radau(FLASK, TIMES)
    scale = np.abs(wanted).max(axis=0)
    assert np.abs(found - wanted).max(axis=0) / scale == pytest.approx(0.0, abs=1e-4)


def test_batch_agrees_with_one_run_at_a_time() -> None:
    rng = np.random.default_rng(1)
    rates = 300.0 * 10.0 ** rng.uniform(-3.0, 5.0, 9)
    moved = 10.0 ** rng.uniform(-0.5, 0.5, 9)
    flasks = [
        replace(FLASK, partition=3.0 * m, chains=(Chain((k,), (2.0, 1.5), (0.0, 0.0)),))
        for k, m in zip(rates, moved, strict=True)
    ]
    none = np.zeros(9)
    many = FLASK.of(lambda figure: figure + none)
    chain = Chain((rates,), (2.0 + none, 1.5 + none), (none, none))
    many = replace(many, partition=3.0 * moved, chains=(chain,))
    found = run_batch(
        system=lambda where: SemiBatch(many.of(lambda figure: figure[where])),
        start=np.stack(start_of(flask=many, amounts=[60.0], zero=none)),
        times=np.array(TIMES), tolerance=close(flasks[0], 1e-5),
    )  # fmt: skip
    for place, flask in enumerate(flasks):
        wanted = by_radau(flask, TIMES)
        scale = np.maximum(np.abs(wanted).max(axis=0), 1e-6)
        assert (np.abs(found[:, :, place] - wanted) / scale).max() < 1e-3


def test_step_is_of_fourth_order() -> None:
    """y' = -y^2 has the solution 1/(1 + t)."""

    class Square:
        def rates(self, y: list[Any]) -> list[Any]:
            return [-y[0] * y[0]]

        def solver(self, y: list[Any], d: Any, rates: list[Any]) -> Any:
            return lambda b: [b[0] / (d + 2.0 * y[0])]

    def error(steps: int) -> float:
        y = [1.0]
        for _ in range(steps):
            y = rodas_step(system=Square(), y=y, h=1.0 / steps).end
        return abs(float(y[0]) - 0.5)

    assert error(4) / error(8) == pytest.approx(16.0, rel=0.25)
    step = rodas_step(system=Square(), y=[1.0], h=0.1)
    assert step.at(0.0)[0] == 1.0
    assert step.at(1.0)[0] == pytest.approx(step.end[0])
    assert step.at(0.5)[0] == pytest.approx(1.0 / 1.05, rel=1e-5)


def test_jacobian_is_that_of_the_rates() -> None:
    made, y = SemiBatch(FLASK), begin(FLASK)
    y[:4], y[-1] = [0.05, 40.0, 15.0, 2.0], 0.8
    states = len(y)
    base = np.array(made.rates(y))
    jacobian = np.empty((states, states))
    for place in range(states):
        step = 1e-6 * (abs(y[place]) + 1e-3)
        moved = list(y)
        moved[place] += step
        jacobian[:, place] = (np.array(made.rates(moved)) - base) / step
    right = np.linspace(1.0, 2.0, states)
    wanted = np.linalg.solve(3.0 * np.eye(states) - jacobian, right)
    assert made.solver(y, 3.0, made.rates(y))(list(right)) == pytest.approx(
        wanted, rel=1e-4, abs=1e-7
    )


def test_nothing_goes_missing() -> None:
    states = run_batch(
        system=lambda where: SemiBatch(FLASK.of(lambda f: np.full(2, f)[where])),
        start=np.stack([np.full(2, one) for one in begin(FLASK)]),
        times=np.array(TIMES), tolerance=close(FLASK, 1e-4),
    )  # fmt: skip
    kept = books(flask=FLASK.of(lambda f: np.full(2, f)), states=states, times=np.array(TIMES))
    assert kept.ozone_imbalance < 1e-6
    assert kept.carbon_imbalance < 1e-6
    assert kept.converted[0] == pytest.approx(0.0)
    assert (np.diff(kept.converted, axis=0) > -1e-9).all()
    assert (kept.product + kept.spoilt <= 1.0 + 1e-9).all()
    assert kept.raw_off[-1] + kept.made_off[-1] == pytest.approx(kept.done[-1] - kept.converted[-1]
                                                                 + kept.made_off[-1])  # fmt: skip
    # 6e-5/s of the first volume, all but saturated
    assert kept.volume[-1] == pytest.approx(1.0 - 6e-5 * 6000.0, rel=2e-3)


def carried_off(flask: Flask, minutes: float) -> list[float]:
    """The last state of a flask without ozone, as the gas goes on."""
    quiet = replace(flask, gas=0.0)
    last = run_one(system=SemiBatch(quiet), start=begin(quiet), times=[0.0, 60.0 * minutes],
                   tolerance=close(quiet, 1e-8))[-1]  # fmt: skip
    return [float(one) for one in last]


def test_pure_stripping_is_the_exponential() -> None:
    """First order out of a liquid that keeps its volume: by hand, 60 exp(-1e-4 * 3600)."""
    still = replace(FLASK, drying=0.0, chains=FLASK.chains[:1])
    last = carried_off(still, 60.0)
    assert last[1] == pytest.approx(60.0 * exp(-0.36), rel=1e-6)
    assert last[5] == pytest.approx(60.0 * (1.0 - exp(-0.36)), rel=1e-6)
    assert last[2:5] == pytest.approx([0.0] * 3)


def test_stripping_out_of_a_shrinking_liquid_is_the_power_of_what_is_left() -> None:
    """dy/dt = -s y/v with v = 1 - e t: y = y0 v^(s/e), by hand; 20 minutes leave 0.928 of it."""
    shrinking = replace(FLASK, kg=1e9, chains=FLASK.chains[:1])
    last = carried_off(shrinking, 20.0)
    left = 1.0 - 6e-5 * 1200.0
    assert last[-1] == pytest.approx(left, rel=1e-6)
    assert last[1] == pytest.approx(60.0 * left ** (1e-4 / 6e-5), rel=1e-6)


def test_a_flask_never_runs_below_dry() -> None:
    left = carried_off(replace(FLASK, chains=FLASK.chains[:1]), 600.0)[-1]
    assert 0.0 < left < 0.05


def test_a_solvent_that_takes_ozone_is_no_short_supply() -> None:
    """Of first order, so the enhancement is (1 + Ha^2)^(1/2) of DeCoursey's, by hand."""
    rate = 40.0
    alone = replace(FLASK, chains=(), solvent=rate, liquid=1e6, kg=1e9, drying=0.0)
    taken = SemiBatch(alone).rates([0.0, 0.0, 0.0, 0.0, 1.0])[-4]
    ha2 = rate * 1e-9 / 2e-4**2
    through = 3.0 * 2e-4 * (1.0 + ha2) ** 0.5
    fed = 1.3e-5 * 0.25 / 1e-4
    assert taken == pytest.approx(fed * (1.0 - exp(-through * 400.0)), rel=1e-3)


def test_books_see_what_goes_missing() -> None:
    states = np.array(run_one(system=SemiBatch(FLASK), start=begin(FLASK), times=TIMES,
                              tolerance=close(FLASK, 1e-4)))[:, :, None]  # fmt: skip
    spoilt = states.copy()
    spoilt[-1, 2] *= 0.99
    one = FLASK.of(lambda f: np.full(1, f))
    found = books(flask=one, states=spoilt, times=np.array(TIMES))
    assert found.carbon_imbalance > 1e-4
    assert found.ozone_imbalance > 1e-4


def test_no_reaction_fills_by_the_exponential_and_purges_alike() -> None:
    empty = replace(FLASK, chains=(), solvent=0.0, kg=1e9, drying=0.0)
    units = 3.0 * 2e-4 * 400.0
    tau = 1e-4 * 3.0 / (1.3e-5 * (1.0 - exp(-units)))
    tolerance = Tolerance(1e-7, [1e-10] * 5)
    filled = run_one(
        system=SemiBatch(empty), start=[0.0] * 4 + [1.0], times=[0.0, tau], tolerance=tolerance
    )
    assert filled[-1][0] == pytest.approx(3.0 * 0.25 * (1.0 - exp(-1.0)), rel=1e-4)
    off = replace(empty, gas=0.0)
    purged = run_one(system=SemiBatch(off), start=[0.5, 0.0, 0.0, 0.0, 1.0], times=[0.0, 2.0 * tau],
                     tolerance=tolerance)  # fmt: skip
    assert purged[-1][0] == pytest.approx(0.5 * exp(-2.0), rel=1e-4)
    # what left the liquid is in the gas
    assert purged[-1][2] == pytest.approx(0.5 - purged[-1][0], rel=1e-6)


def test_instantaneous_reaction_takes_all_that_the_gas_film_lets_through() -> None:
    fast = replace(FLASK, solvent=0.0, drying=0.0, chains=(Chain((1e9,), (0.0, 0.0), (0.0, 0.0)),))
    rates = SemiBatch(fast).rates(start_of(flask=fast, amounts=[1e5], zero=0.0))
    fed = 1.3e-5 * 0.25 / 1e-4
    assert rates[-4] == pytest.approx(fed * (1.0 - exp(-0.02 * 400.0)), rel=1e-3)


def test_competition_ends_where_the_ratio_says() -> None:
    """Both of first order in one ozone: (1 - s) = (1 - x)^(k2/k1), by hand."""
    pair = replace(FLASK, solvent=0.0, drying=0.0, chains=(
        Chain((300.0,), (0.0, 0.0), (0.0, 0.0)), Chain((30.0,), (0.0, 0.0), (0.0, 0.0)),
    ))  # fmt: skip
    last = run_one(system=SemiBatch(pair), start=begin(pair), times=[0.0, 2000.0],
                   tolerance=close(pair))[-1]  # fmt: skip
    assert last[7] / 20.0 == pytest.approx((last[1] / 60.0) ** 0.1, rel=1e-4)


def test_too_many_steps_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(batch, "MOST_STEPS", 3)
    with pytest.raises(NotConverged, match="too many steps"):
        run_one(system=SemiBatch(FLASK), start=begin(FLASK), times=TIMES, tolerance=close(FLASK))
    with pytest.raises(NotConverged, match="too many steps"):
        run_batch(
            system=lambda where: SemiBatch(FLASK.of(lambda f: np.full(2, f)[where])),
            start=np.stack([np.full(2, one) for one in begin(FLASK)]),
            times=np.array(TIMES), tolerance=close(FLASK),
        )  # fmt: skip


def test_cold_slows() -> None:
    found = warmed_rate(
        energy=12e3, temperature=np.array([298.15, 233.15]), reference=298.15, gas_constant=8.314
    )
    assert found == pytest.approx([1.0, exp(-12e3 / 8.314 * (1 / 233.15 - 1 / 298.15))])


def test_contact_gives_the_stated_uptake() -> None:
    """A reaction without delay takes 1 - exp(-kg a t): the factor for 50, 90 % by hand."""
    wanted = np.array([0.5, 0.9])
    fast = replace(
        FLASK, solvent=0.0, drying=0.0, chains=(Chain((1e9,), (0.0, 0.0), (0.0, 0.0)),), kg=0.02
    ).of(lambda figure: np.full(2, figure))
    modelled = uptake_until_done(flask=fast, amounts=[1e5])
    assert modelled == pytest.approx(1.0 - exp(-0.02 * 400.0), rel=1e-3)
    factor = contact_for_uptake(flask=fast, amounts=[1e5], uptake=wanted)
    assert factor == pytest.approx(-np.log(1.0 - wanted) / (0.02 * 400.0), rel=1e-2)


def test_uptake_until_done_is_that_of_the_run() -> None:
    """Against the run itself, minute by minute; two sites one after the other."""
    flask = replace(FLASK, drying=0.0, solvent=0.0,
                    chains=(Chain((2e5, 1e5), (0.0,) * 3, (0.0,) * 3),))  # fmt: skip
    many = flask.of(lambda figure: np.full(1, figure))
    times = list(np.linspace(0.0, 9000.0, 451))
    states = np.array(run_one(system=SemiBatch(flask), start=begin(flask), times=times,
                              tolerance=close(flask)))  # fmt: skip
    sites = (2.0 * states[:, 1] + states[:, 2]) / 120.0
    end = int(np.argmax(sites < 0.01))
    taken = states[end, -4] / (flask.flow * flask.gas / flask.volume * times[end])
    found = uptake_until_done(flask=many, amounts=[60.0])
    assert found == pytest.approx(taken, rel=0.02)


def test_iodide_colours_by_hand() -> None:
    # 1e-5 mol/L in 10 mL, brought at 1 nmol/s, 10 nmol/s: 100 s, 10 s
    found = colouring_time(seen=0.01, volume=1e-5, rate=np.array([1e-9, 1e-8]))
    assert found == pytest.approx([100.0, 10.0])
