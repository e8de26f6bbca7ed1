"""What must hold of every simulated flask: books that close, and more volatile never keeps more."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.physics.liquid.batch import Tolerance, run_batch
from ozonewright.physics.liquid.books import Books, books
from ozonewright.physics.liquid.contact import contact_for_uptake, uptake_until_done
from ozonewright.physics.liquid.semibatch import Chain, Flask, SemiBatch, start_of

SUBSTRATE = 100.0
"""[mol/m3]"""
HOUR = 3600.0
SOME = settings(max_examples=12, deadline=None)


def powers(low: float, high: float) -> st.SearchStrategy[float]:
    """A number of any size between two powers of ten."""
    return st.floats(low, high).map(lambda one: 10.0**one)


@st.composite
def flasks(draw: Any) -> Flask:
    """One or two substrates of one or two sites, fast or slow, staying or leaving."""
    chains = []
    for _ in range(draw(st.integers(1, 2))):
        sites = draw(st.integers(1, 2))
        chains.append(
            Chain(
                wanted=tuple(draw(powers(-2.0, 5.0)) for _ in range(sites)),
                spoiling=tuple(draw(powers(-4.0, 1.0)) for _ in range(sites + 1)),
                stripped=tuple(draw(powers(-8.0, -3.0)) for _ in range(sites + 1)),
            )
        )
    return Flask(
        flow=draw(st.floats(2e-6, 3e-5)), gas=draw(st.floats(0.05, 1.0)), volume=1e-4,
        partition=draw(st.floats(0.2, 10.0)), kl=draw(powers(-5.0, -3.3)), kg=0.02,
        diffusivity=1e-9, area_time=draw(st.floats(20.0, 600.0)), diffusivity_ratio=0.55,
        solvent=draw(powers(-7.0, 0.5)), chains=tuple(chains), liquid=1e4,
        drying=draw(st.sampled_from([0.0, 1e-6, 1e-4])),
    )  # fmt: skip


def simulated(flask: Flask) -> Books:
    """An hour of it, one draw, at the tolerances of the answer."""
    many = flask.of(lambda figure: np.full(1, float(figure)))
    amounts = [SUBSTRATE] * len(flask.chains)
    start = np.stack(start_of(flask=many, amounts=amounts, zero=np.zeros(1)))
    times = np.linspace(0.0, HOUR, 31)
    whole = SUBSTRATE * len(amounts)
    states = run_batch(
        system=lambda where: SemiBatch(many.of(lambda figure: figure[where])), start=start,
        times=times, tolerance=Tolerance(1e-4, [1e-10 * whole, *[1e-7 * whole] * (len(start) - 1)]),
    )  # fmt: skip
    return books(flask=many, states=states, times=times)


@SOME
@given(flasks())
def test_ozone_and_carbon_are_found_again(flask: Flask) -> None:
    found = simulated(flask)
    assert found.ozone_imbalance < 1e-6
    assert found.carbon_imbalance < 1e-6
    assert (found.raw_off >= -1e-6).all()
    assert (found.converted <= 1.0 + 1e-6).all()
    assert (np.diff(found.done, axis=0) >= -1e-5).all()
    assert (np.diff(found.volume, axis=0) <= 1e-9).all()
    assert (found.volume > 0.0).all()


@SOME
@given(flasks(), st.floats(2.0, 20.0))
def test_what_leaves_more_readily_leaves_no_less_product(flask: Flask, times: float) -> None:
    one = replace(flask, chains=flask.chains[:1])
    chain = one.chains[0]
    readier = tuple(times * rate for rate in chain.stripped)
    sooner = replace(one, chains=(replace(chain, stripped=readier),))
    kept, left = simulated(one), simulated(sooner)
    assert left.product[-1] <= kept.product[-1] + 1e-4
    gone = [(found.raw_off + found.made_off)[-1] for found in (kept, left)]
    assert gone[1] >= gone[0] - 1e-4


@SOME
@given(flasks(), st.floats(0.05, 0.9))
def test_the_contact_found_gives_the_uptake_asked(flask: Flask, share: float) -> None:
    many = flask.of(lambda figure: np.full(1, float(figure)))
    amounts = [SUBSTRATE] * len(flask.chains)
    most = uptake_until_done(flask=replace(many, area_time=1e4 * many.area_time), amounts=amounts)
    factor = contact_for_uptake(flask=many, amounts=amounts, uptake=share * most)
    made = uptake_until_done(
        flask=replace(many, area_time=factor * many.area_time), amounts=amounts
    )
    assert np.allclose(made, share * most, rtol=1e-3) or factor < 1.1e-4
