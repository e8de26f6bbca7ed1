"""The flow that serves a wish best, at the power and the wall as they are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ozonewright.physics.gas.flow import ozonised_flow
from ozonewright.questions.generator.fit import Fit
from ozonewright.questions.generator.lumped import Array
from ozonewright.questions.generator.points import Point, Wish
from ozonewright.questions.generator.predicted import at, estimate
from ozonewright.questions.generator.result import BestPoint
from ozonewright.references.constants import M_O3
from ozonewright.units import Kind, number

RANGE = 10.0
"""Flows from a tenth to ten times the present one are tried."""
TRIED = 81


def best_points(fit: Fit, point: Point, wishes: Sequence[Wish]) -> Iterator[BestPoint]:
    """Yield the best flow for each wish; one that can't be served has no flow."""
    if not wishes:
        return
    flows = point.flow * np.geomspace(1.0 / RANGE, RANGE, TRIED)
    made = at(fit, [replace(point, flow=float(flow)) for flow in flows])
    strength = made.rate * M_O3 / ozonised_flow(feed_flow=flows, ozone_rate=made.rate)
    for wish in wishes:
        yield _best(wish, flows, made.rate * M_O3, strength, made.power)


def _best(wish: Wish, flows: Array, rate: Array, strength: Array, power: Array) -> BestPoint:
    cost = None
    if wish.kind == "cost":
        costs = (wish.gas_price * flows + wish.energy_price * power) / rate
        middle = np.median(costs, axis=0)
        served = middle <= middle.min()
        good = np.ones(len(flows))
        cost = number(float(middle.min()), Kind.PRICE_PER_MASS, "1/gram")
    else:
        reached = strength if wish.kind == "concentration" else rate
        good = np.mean(reached >= wish.wanted, axis=0)
        served = np.median(reached, axis=0) >= wish.wanted
        # the most ozone that is strong enough; the least gas that is enough ozone
        if wish.kind == "concentration":
            middle = np.where(served, np.median(rate, axis=0), 0.0)
            served = served & (middle >= middle.max())
    if not served.any():
        return BestPoint(wish=wish.kind, currency=wish.currency)
    place = int(np.argmax(served))
    return BestPoint(
        wish=wish.kind,
        flow=float(flows[place]),
        rate=estimate(rate[:, place]),
        concentration=estimate(strength[:, place]),
        sure=float(good[place]),
        cost=cost,
        currency=wish.currency,
    )
