"""A reaction minute by minute: many draws at once, from the first bubble to the purge."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ozonewright.errors import NotConverged
from ozonewright.physics.gas.composition import ozone_concentration
from ozonewright.physics.liquid.batch import Array, Tolerance, run_batch
from ozonewright.physics.liquid.books import Books, books
from ozonewright.physics.liquid.contact import contact_for_uptake, uptake_until_done
from ozonewright.physics.liquid.semibatch import Flask, SemiBatch, start_of
from ozonewright.questions.absorber.checks import check_bubbles, check_gas
from ozonewright.questions.absorber.draws import Drawn
from ozonewright.questions.absorber.kinetics import Leaving, chains_of
from ozonewright.questions.absorber.leaving import stripped, wet
from ozonewright.questions.absorber.model import Stream, column, stream
from ozonewright.questions.absorber.train import Bottle, flask_of
from ozonewright.records.absorber import Asked
from ozonewright.records.flask import Flasked, Reactant
from ozonewright.records.rig import Rig
from ozonewright.references.constants import NORMAL_PRESSURE
from ozonewright.units import Kind, size

MINUTE = size(Kind.TIME, "min")
POINTS = 181
NEAR = 1e-3
"""Product short of the most there can be at which more ozone is no longer worth it."""
DONE = 0.99
"""Share of what is to do at which a run counts as done."""
LONGEST = 4.0
"""Times the on-time with all ozone taken up: so long is simulated, unless few runs are done."""
LONGER = 4.0
"""Times that again where runs are not done."""
RELATIVE = 1e-4
DISSOLVED, OTHER = 1e-10, 1e-7
"""Errors permitted in a step, over the substrate there is: of dissolved ozone, of the rest."""
BALANCE = 1e-6
"""Share of ozone or substrate that may go missing in a run."""
PURGE = 30.0 * MINUTE


@dataclass(frozen=True, slots=True)
class Simulated:
    """The course of many runs."""

    bottle: Bottle
    drawn: Drawn
    times: Array
    books: Books
    """By times and draws."""
    gas: Stream
    purge_times: Array
    purged: Array
    """Dissolved ozone by times of purge and draws, from `stop` on. [mol/m3]"""
    stop: int
    """Place among the times at which the mean product is most."""
    liquid: Array
    """The solvent at the start. [mol]"""
    modelled: Array
    """Uptake until done, by the model alone. [1]"""
    contact: Array | None
    """By which a stated uptake multiplies the transfer of the model."""

    def off_gas(self) -> Array:
        """Ozone in the dry gas behind the flask. [kg/mol]"""
        share = self.books.passing * self.gas.ozone / self.gas.gas
        return np.asarray(ozone_concentration(mole_fraction=np.maximum(share, 0.0)))


def simulate(rig: Rig, asked: Asked, reaction: Flasked, drawn: Drawn) -> Simulated:
    """Return the course of a reaction in the flask of a rig.

    Raises
    ------
    Faults
        The flask states too little.
    NotApplicable
        A wanted site has no rate constant.
    NotConverged
        The solver needs too many steps, or ozone or substrate went missing.
    """
    bottle = flask_of(rig, reaction)
    ambient = rig.ambient.pressure
    pressure = ambient.value if ambient else NORMAL_PRESSURE
    gas = stream(asked, drawn)
    flask = _flask(bottle, gas, pressure, asked, reaction, drawn)
    flask = replace(flask, chains=chains_of(reaction, drawn, _leaving(flask, reaction, drawn)))
    amounts = [drawn.of(one.amount) / flask.volume for one in reaction.reactants]
    wanted = sum(
        float(amount[0]) * len(chain.wanted)
        for amount, chain in zip(amounts, flask.chains, strict=True)
    )
    modelled = uptake_until_done(flask=flask, amounts=amounts)
    contact = None
    if asked.slip_share is not None:
        uptake = 1.0 - drawn.of(asked.slip_share)
        contact = contact_for_uptake(flask=flask, amounts=amounts, uptake=uptake)
        flask = replace(flask, area_time=flask.area_time * contact)
    longest = LONGEST * wanted * float(flask.volume[0]) / float(np.atleast_1d(gas.ozone)[0])
    tolerance = _tolerance(flask, float(sum(amount[0] for amount in amounts)))
    for _ in range(2):
        times = np.linspace(0.0, longest, POINTS)
        states = _run(flask, amounts, times, tolerance)
        kept = books(flask=flask, states=states, times=times)
        if np.mean(kept.done[-1] >= DONE) > 0.975:
            break
        longest *= LONGER
    _check(kept)
    mean = kept.product.mean(axis=1)
    stop = int(np.argmax(mean >= mean.max() - NEAR))
    purge_times = np.concatenate([[0.0], np.geomspace(0.1, PURGE, 60)])
    off = replace(flask, gas=0.0 * flask.gas)
    purged = run_batch(system=_of(off), start=states[stop], times=purge_times, tolerance=tolerance)[
        :, 0
    ]
    return Simulated(
        bottle=bottle, drawn=drawn, times=times, books=kept, gas=gas, purge_times=purge_times,
        purged=purged, stop=stop, liquid=flask.liquid * flask.volume, modelled=modelled,
        contact=contact,
    )  # fmt: skip


def _flask(
    bottle: Bottle, gas: Stream, pressure: float, asked: Asked, reaction: Flasked, drawn: Drawn
) -> Flask:
    made = column(bottle, gas, pressure, asked, drawn)
    check_gas(gas)
    check_bubbles((bottle,), [made])
    none = np.zeros(drawn.draws + 1)
    solvent = wet(bottle, gas, pressure, made.volume + none, drawn)
    # the gas is full of vapour soon after the sparger, and there is so much more of it
    flow = made.flow / (1.0 - solvent.fraction)
    return Flask(
        flow=flow + none,
        gas=gas.ozone / flow + none,
        volume=made.volume + none,
        partition=made.partition + none,
        kl=made.kl + none,
        kg=made.kg + none,
        diffusivity=made.diffusivity + none,
        area_time=6.0 / made.bubble * made.depth / made.rise + none,
        diffusivity_ratio=drawn.figure("diffusivity of the substrate", "SUBSTRATE_DIFFUSIVITY"),
        solvent=solvent.takes,
        chains=(),
        liquid=solvent.liquid + none,
        drying=solvent.drying,
    )


def _leaving(flask: Flask, reaction: Flasked, drawn: Drawn) -> Leaving:
    kelvin = reaction.temperature.value

    def leaving(one: Reactant) -> tuple[Array, Array]:
        return (
            stripped(flask, one.substrate, one.name, kelvin, drawn),
            stripped(flask, one.product, f"the product of {one.name}", kelvin, drawn),
        )

    return leaving


def _run(flask: Flask, amounts: list[Any], times: Array, tolerance: Tolerance) -> Array:
    start = np.stack(start_of(flask=flask, amounts=amounts, zero=0.0 * flask.flow))
    return run_batch(system=_of(flask), start=start, times=times, tolerance=tolerance)


def _of(flask: Flask) -> Any:
    return lambda where: SemiBatch(flask.of(lambda figure: figure[where]))


def _tolerance(flask: Flask, substrate: float) -> Tolerance:
    states = len(start_of(flask=flask, amounts=[0.0] * len(flask.chains), zero=0.0))
    return Tolerance(RELATIVE, [DISSOLVED * substrate, *[OTHER * substrate] * (states - 1)])


def _check(kept: Books) -> None:
    worst = max(kept.ozone_imbalance, kept.carbon_imbalance)
    if not worst <= BALANCE:
        raise NotConverged(
            "ozone or substrate went missing in a simulated run",
            got=f"{worst:.2g} of it",
            fix="Report it with the rig and the reaction: this should not happen.",
        )
