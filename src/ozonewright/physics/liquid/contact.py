"""What contact of bubbles and liquid makes the uptake of a flask that which was measured."""

from __future__ import annotations

from dataclasses import replace
from math import comb, log
from typing import Any, cast

import numpy as np

from ozonewright.physics.liquid.batch import Array
from ozonewright.physics.liquid.semibatch import COUNTERS, PER_CHAIN, Flask, SemiBatch, start_of

WIDEST = 1e4
"""Factor either way within which contact is sought."""
HALVINGS = 24
DONE = 0.99
"""Conversion to which the uptake is meant."""
NODES = 8
TAKEN = -len(COUNTERS)
PROBE = 1e-3
"""Dissolved ozone, over that in balance with the gas, from which its rate is taken as straight."""


def uptake_until_done(*, flask: Flask, amounts: list[Any]) -> Array:
    """Share of the ozone that a flask takes up until its substrates are converted.

    Parameters
    ----------
    flask : Flask
        The flask, of many draws. [-]
    amounts : list
        Concentration of each substrate at the start. [mol/m3]

    Returns
    -------
    uptake : array
        By draws, until 99 % are converted. [1]

    Raises
    ------
    None

    Valid
    -----
    Substrates that are used up side by side, ozone that is used up as fast as it dissolves, little
    carried off: within 2 % of the run itself where the reaction is fast.

    Source
    ------
    decoursey_1974

    Notes
    -----
    1/uptake is meant over the conversion x, with dissolved ozone in its steady state and the sites
    of a molecule attacked at random; by Gauss and Legendre in ln(1 - x).
    """
    nodes, weights = np.polynomial.legendre.leggauss(NODES)
    deepest = -log(1.0 - DONE)
    slower: Any = 0.0
    for node, weight in zip(nodes, weights, strict=True):
        rest = float(np.exp(-0.5 * deepest * (node + 1.0)))
        share = 0.5 * deepest * weight * rest / DONE
        slower = slower + share / np.maximum(_uptake_at(flask, amounts, rest), 1.0 / WIDEST)
    return cast(Array, 1.0 / slower)


def _uptake_at(flask: Flask, amounts: list[Any], rest: float) -> Array:
    """Return the uptake when so large a share of the sites is left, ozone in its steady state."""
    made = SemiBatch(flask)
    state = start_of(flask=flask, amounts=amounts, zero=0.0 * flask.flow)
    at = 1
    for chain, amount in zip(flask.chains, amounts, strict=True):
        sites = len(chain.wanted)
        for stage in range(sites + 1):
            odds = comb(sites, stage) * rest ** (sites - stage) * (1.0 - rest) ** stage
            state[at + stage] = odds * amount + 0.0 * flask.flow
        at += sites + 1 + len(PER_CHAIN)
    probe = PROBE * flask.partition * flask.gas
    without, with_some = (made.rates([ozone, *state[1:]])[0] for ozone in (state[0], probe))
    steady = probe * without / np.maximum(without - with_some, 1e-3 * np.abs(without))
    taken = made.rates([steady, *state[1:]])[TAKEN]
    return cast(Array, taken * flask.volume / (flask.flow * flask.gas))


def contact_for_uptake(*, flask: Flask, amounts: list[Any], uptake: Any) -> Array:
    """Factor on the contact of bubbles and liquid that makes the uptake a stated one.

    Parameters
    ----------
    flask : Flask
        The flask as the model has it, of many draws. [-]
    amounts : list
        Concentration of each substrate at the start. [mol/m3]
    uptake : float
        Measured until done, by draws. [1]

    Returns
    -------
    factor : array
        By draws; at an end of the range sought where no contact makes it. [1]

    Raises
    ------
    None

    Valid
    -----
    As for the uptake until done.

    Source
    ------
    decoursey_1974

    Notes
    -----
    Bisection on the factor's logarithm: the uptake rises with it.
    """
    high = np.full(np.shape(flask.flow), log(WIDEST))
    low = -high
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        tried = replace(flask, area_time=flask.area_time * np.exp(middle))
        less = uptake_until_done(flask=tried, amounts=amounts) < uptake
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    return cast(Array, np.exp(0.5 * (low + high)))
