"""What a simulated run amounts to, and whether nothing went missing in it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ozonewright.physics.liquid.batch import Array
from ozonewright.physics.liquid.semibatch import PER_CHAIN, Flask


@dataclass(frozen=True, slots=True)
class Books:
    """Shares and sums, by times and draws."""

    converted: Array
    """Wanted attacks that were made or are spoilt, over all. [1]"""
    done: Array
    """The same and those carried off unmade: what is no longer to do in the flask. [1]"""
    product: Array
    """Molecules with all wanted attacks and no other, over all. [1]"""
    spoilt: Array
    """Molecules attacked where they should stay. [1]"""
    raw_off: Array
    """Wanted attacks that the gas carried off unmade, over all. [1]"""
    made_off: Array
    """Made attacks that it carried off, over all: product gone with the gas. [1]"""
    dissolved: Array
    """Ozone in the liquid that is left. [mol/m3]"""
    taken: Array
    """Ozone taken up so far. [mol/m3]"""
    fed: Array
    """Ozone sent in so far. [mol/m3]"""
    to_solvent: Array
    """Ozone that the solvent took so far. [mol/m3]"""
    passed: Array
    """Ozone gone past so far. [mol/m3]"""
    passing: Array
    """Share of the ozone that passes just then. [1]"""
    volume: Array
    """Liquid left, over that at the start. [1]"""
    ozone_imbalance: float
    """Not accounted for at the end, over what was fed; at worst. [1]"""
    carbon_imbalance: float
    """The same of the substrates. [1]"""


def books(*, flask: Flask, states: Array, times: Array) -> Books:
    """Sums over a simulated run.

    Parameters
    ----------
    flask : Flask
        The flask while ozone comes. [-]
    states : array
        Times by states by draws. [mol/m3]
    times : array
        On-time. [s]

    Returns
    -------
    books : Books
        By times and draws; sums of ozone over the volume at the start. [-]

    Raises
    ------
    None

    Valid
    -----
    Gas with ozone from the first time on.

    Source
    ------
    stoichiometry

    Notes
    -----
    Fed is passed and taken; taken is dissolved, in the solvent, and for each molecule as many as
    the attacks on it. The share that passes is the slope of what passed by a straight line between
    neighbouring times.
    """
    start = states[0]
    all_of = 0.0 * start[0]
    left, product, spoilt, raw, made, bound, carbon = (
        np.zeros_like(states[:, 0]) for _ in range(7)
    )
    at, attacks = 1, 0.0 * start[0]
    for chain in flask.chains:
        stages = len(chain.spoiling)
        own = states[:, at : at + stages + len(PER_CHAIN)]
        for stage in range(stages):
            bound = bound + stage * own[:, stage]
            left = left + (stages - 1 - stage) * own[:, stage]
        product = product + own[:, stages - 1]
        spoilt = spoilt + own[:, stages]
        bound = bound + own[:, stages + 1] + own[:, stages + 3]
        raw = raw + (stages - 1) * own[:, stages + 2] - own[:, stages + 3]
        made = made + own[:, stages + 3]
        carbon = carbon + own[:, : stages + 1].sum(axis=1) + own[:, stages + 2]
        all_of = all_of + start[at]
        attacks = attacks + (stages - 1) * start[at]
        at += stages + len(PER_CHAIN)
    raw, made, todo = raw / attacks, made / attacks, left / attacks
    taken, passed, solvent, volume = (states[:, place] for place in (-4, -3, -2, -1))
    fed = flask.flow * flask.gas / flask.volume * times[:, None]
    missing = np.abs(fed[-1] - passed[-1] - states[-1, 0] - solvent[-1] - bound[-1]) / fed[-1]
    gone = np.abs(carbon[-1] - all_of) / all_of
    return Books(
        converted=1.0 - todo - raw,
        done=1.0 - todo,
        product=product / all_of,
        spoilt=spoilt / all_of,
        raw_off=raw,
        made_off=made,
        dissolved=states[:, 0] / volume,
        taken=taken,
        fed=fed,
        to_solvent=solvent,
        passed=passed,
        passing=np.gradient(passed, times, axis=0) / np.gradient(fed, times, axis=0),
        volume=volume,
        ozone_imbalance=float(missing.max()),
        carbon_imbalance=float(gone.max()),
    )
