"""Output over many flows and powers or tube temperatures, with intervals."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from scipy.interpolate import PchipInterpolator

from ozonewright.physics.gas.flow import ozonised_flow
from ozonewright.questions.generator.fit import Fit
from ozonewright.questions.generator.lumped import Array
from ozonewright.questions.generator.model import modelled
from ozonewright.questions.generator.points import Point
from ozonewright.references.constants import M_O3
from ozonewright.units import Kind, size

NODES = 13
"""Flows, and powers or temperatures, that are worked out; a smooth curve joins them."""
ENDS = (50.0, 2.5, 97.5)
"""Median, and what holds 95 %. [%]"""
Over = Literal["power", "wall"]
OVER: tuple[Over, ...] = ("power", "wall")
SIDE = 25
"""Flows, and powers or temperatures, of a drawn map."""
BEYOND = 1.3
"""End of a drawn map over the highest flow or power of place and runs."""
HALF = 0.5
"""Begin of a drawn map over the lowest flow or power of place and runs."""
WARMER = 20.0 * size(Kind.TEMPERATURE_DIFFERENCE, "K")
LEAST_SPAN = 60.0 * size(Kind.TEMPERATURE_DIFFERENCE, "K")
"""From the gas that comes in upwards, at least."""


@dataclass(frozen=True, slots=True)
class Map:
    """Ozone at each flow and power or temperature, shape (flows, values)."""

    rate: Array
    """[mol/s]"""
    low: Array
    high: Array
    strength: Array
    """Of the ozonised gas. [kg/mol]"""
    flows: Array
    """[mol/s]"""
    values: Array
    """Powers or tube temperatures. [W or K]"""
    over: Over


def mapped(fit: Fit, point: Point, flows: Array, values: Array, over: Over = "power") -> Map:
    """Return the output over a grid, the rest as at a point."""
    across, along = _nodes(flows), _nodes(values)
    points = [_at(point, flow, value, over) for flow in across for value in along]
    made = np.log(modelled(fit.lumped, fit.draws, points).rate)
    shape = (len(across), len(along))
    rate, low, high = (
        np.exp(_joined(each.reshape(shape), len(flows), len(values)))
        for each in np.percentile(made, ENDS, axis=0)
    )
    gas = ozonised_flow(feed_flow=np.asarray(flows)[:, None], ozone_rate=rate)
    strength = np.asarray(rate * M_O3 / gas)
    return Map(rate, low, high, strength, np.asarray(flows), np.asarray(values), over)


def _nodes(values: Array) -> Array:
    """Return some of the values, evenly by their places, or all if they are few."""
    places = np.linspace(0.0, len(values) - 1.0, min(NODES, len(values)))
    return np.asarray(np.interp(places, np.arange(len(values)), values))


def _joined(nodes: Array, *counts: int) -> Array:
    """Return what is known at nodes at so many places along each axis; no new hills arise."""
    for axis, count in enumerate(counts):
        places = np.linspace(0.0, 1.0, nodes.shape[axis])
        nodes = PchipInterpolator(places, nodes, axis=axis)(np.linspace(0.0, 1.0, count))
    return np.asarray(nodes)


def _at(point: Point, flow: float, value: float, over: Over) -> Point:
    if over == "power":
        return replace(point, flow=float(flow), power=float(value))
    return replace(point, flow=float(flow), wall=float(value))


def drawn_map(fit: Fit, point: Point, over: Over) -> Map | None:
    """Return the map around a place and the runs; None over power where nobody stated it."""
    places = [point, *(run.point for run in fit.runs)]
    seen = [each.flow for each in places]
    flows = np.linspace(HALF * min(seen), BEYOND * max(seen), SIDE)
    if over == "power":
        powers = [each.power for each in places if each.power is not None]
        if point.power is None:
            return None
        ends = (HALF * min(powers), BEYOND * max(powers))
    else:
        walls = [each.wall for each in places if each.wall is not None]
        ends = (point.inlet, max([point.inlet + LEAST_SPAN, *(wall + WARMER for wall in walls)]))
        ends = (min([ends[0], *walls]), ends[1])
    return mapped(fit, point, flows, np.linspace(*ends, SIDE), over)
