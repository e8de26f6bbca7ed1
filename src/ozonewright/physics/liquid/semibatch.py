"""A flask into which ozone bubbles: what enters, what reacts, what is stripped. SI.

States are amounts over the volume at the start, so that nothing goes missing while the liquid
shrinks; the last state is the share of the volume that is left.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from math import exp
from typing import Any

import numpy as np

from ozonewright.physics.liquid.enhancement import enhancement_decoursey_1974
from ozonewright.physics.liquid.rodas import State
from ozonewright.physics.liquid.transfer import overall

FAINT = 1e-12
"""Concentration that keeps a quotient finite where nothing is left. [mol/m3]"""
NUDGE = 1e-6
"""Relative step of the derivatives that are taken by difference."""

DRY = 0.02
"""Share of the volume at which the gas no longer meets the liquid, and takes no more of it."""


@dataclass(frozen=True, slots=True)
class Chain:
    """One substrate: the wanted attacks in a row, and what spoils each stage."""

    wanted: tuple[Any, ...]
    """Rate constant of each wanted attack; the last stage, the product, has none. [m3/(mol s)]"""
    spoiling: tuple[Any, ...]
    """Rate constant of the attack that spoils each stage, the product the last. [m3/(mol s)]"""
    stripped: tuple[Any, ...]
    """Of each stage, carried off by the gas out of the liquid at the start. [1/s]"""


@dataclass(frozen=True, slots=True)
class Flask:
    """Bubbled liquid; floats, or arrays over draws."""

    flow: Any
    """Of gas, at the flask's temperature and pressure. [m3/s]"""
    gas: Any
    """Ozone in it, 0 when the discharge is off. [mol/m3]"""
    volume: Any
    partition: Any
    kl: Any
    kg: Any
    diffusivity: Any
    area_time: Any
    """Surface of a bubble over its volume, times its time in the liquid, corrected. [s/m]"""
    diffusivity_ratio: Any
    solvent: Any
    """Ozone that goes to the solvent or by itself. [1/s]"""
    chains: tuple[Chain, ...]
    liquid: Any = 0.0
    """The solvent itself, in its liquid. [mol/m3]"""
    drying: Any = 0.0
    """Share of the first volume that saturated gas carries off. [1/s]"""

    def of(self, pick: Callable[[Any], Any]) -> Flask:
        """Return the flask with every figure picked from its draws."""
        names = (
            "flow", "gas", "volume", "partition", "kl", "kg", "diffusivity", "area_time",
            "diffusivity_ratio", "solvent", "liquid", "drying",
        )  # fmt: skip
        chains = tuple(
            Chain(*(tuple(pick(one) for one in part)
                    for part in (chain.wanted, chain.spoiling, chain.stripped)))
            for chain in self.chains
        )  # fmt: skip
        return replace(self, **{name: pick(getattr(self, name)) for name in names}, chains=chains)


COUNTERS = ("absorbed", "passed", "to_solvent", "left")
"""States behind the chains: ozone taken up, slipped past, gone to the solvent; volume left."""
PER_CHAIN = ("spoilt", "ozone_spoilt", "stripped", "ozone_stripped")
"""States behind the stages of a chain: spoilt molecules, their ozone, those carried off, theirs."""


def start_of(*, flask: Flask, amounts: list[Any], zero: Any) -> State:
    """State before the discharge goes on.

    Parameters
    ----------
    flask : Flask
        The flask. [-]
    amounts : list
        Concentration of each substrate. [mol/m3]
    zero : float
        Nothing, of the shape of a draw. [mol/m3]

    Returns
    -------
    state : list
        Dissolved ozone; of each chain its stages and what is spoilt and stripped; counters; all
        over the volume at the start. Last the share of that volume that is left. [mol/m3]

    Raises
    ------
    None

    Valid
    -----
    Any.

    Source
    ------
    geometry
    """
    state: State = [zero]
    for chain, amount in zip(flask.chains, amounts, strict=True):
        state += [amount + zero, *(zero for _ in chain.wanted), *(zero for _ in PER_CHAIN)]
    return [*state, *(zero for _ in COUNTERS[:-1]), zero + 1.0]


@dataclass(frozen=True)
class SemiBatch:
    """Rates of a flask, and the solve with their Jacobian."""

    flask: Flask

    def rates(self, y: State) -> State:
        """Return dy/dt."""
        flask, left = self.flask, y[-1]
        thin = 1.0 / left
        demand, weighted = self._demand(y, thin)
        ozone = y[0] * thin
        taken = self._uptake(ozone, demand, weighted, left)
        out: State = [taken - demand * y[0]]
        for chain, at in self._places:
            before: Any = 0.0
            spoilt: Any = 0.0
            bound: Any = 0.0
            gone: Any = 0.0
            gone_with: Any = 0.0
            for stage in range(len(chain.spoiling)):
                amount = y[at + stage]
                on = chain.wanted[stage] * ozone * amount if stage < len(chain.wanted) else 0.0
                lost = chain.spoiling[stage] * ozone * amount
                off = chain.stripped[stage] * thin * amount
                out.append(before - on - lost - off)
                before = on
                spoilt, bound = spoilt + lost, bound + (stage + 1.0) * lost
                gone, gone_with = gone + off, gone_with + stage * off
            out += [spoilt, bound, gone, gone_with]
        fed = flask.flow * flask.gas / flask.volume
        return [*out, taken, fed - taken, flask.solvent * y[0], -flask.drying * self._wetted(left)]

    def solver(self, y: State, d: Any, rates: State) -> Callable[[State], State]:
        """Return what solves (d - J) x = b: an arrow of ozone over chains, beside the volume."""
        left = y[-1]
        thin = 1.0 / left
        ozone = y[0] * thin
        demand, weighted = self._demand(y, thin)
        by_ozone, by_demand, by_weighted = self._slopes(ozone, demand, weighted, left)
        by_left, drier = self._by_left(y, rates)
        by_ozone = by_ozone * thin
        rows = []
        q: list[Any] = []
        corner = d - by_ozone + demand
        for chain, at in self._places:
            before: Any = 0.0
            for stage in range(len(chain.spoiling)):
                amount = y[at + stage] * thin
                wanted = chain.wanted[stage] if stage < len(chain.wanted) else 0.0
                rate = (wanted + chain.spoiling[stage]) * thin
                slope = by_demand * rate + by_weighted * rate * (2.0 * amount - weighted) / demand
                # of ozone by this stage; of this stage by ozone
                over, under = slope - rate * y[0], before - rate * y[at + stage]
                pivot = 1.0 / (d + rate * y[0] + chain.stripped[stage] * thin)
                carried = chain.wanted[stage - 1] * ozone if stage else 0.0
                q.append((under + carried * q[-1] if stage else under) * pivot)
                corner = corner - over * q[-1]
                rows.append((at + stage, stage, carried, pivot, over, slope))
                before = wanted * amount
        corner = 1.0 / corner

        def solve(b: State) -> State:
            shrunk: Any = 0.0
            if by_left:
                shrunk = b[-1] / (d + drier)
                b = [one + slope * shrunk for one, slope in zip(b, by_left, strict=True)]
            p: list[Any] = []
            top = b[0]
            for place, stage, carried, pivot, over, _ in rows:
                p.append((b[place] + carried * p[-1] if stage else b[place]) * pivot)
                top = top + over * p[-1]
            x0 = top * corner
            x: State = [x0, *b[1:]]
            taken = by_ozone * x0
            for (place, *_, slope), one, other in zip(rows, p, q, strict=True):
                x[place] = one + other * x0
                taken = taken + slope * x[place]
            self._counters(x, y, d, taken, b)
            x[-1] = shrunk if by_left else b[-1] / d
            return x

        return solve

    def _by_left(self, y: State, rates: State) -> tuple[State, Any]:
        """Return how all rates change with the volume left, and the liquid's own loss with it.

        Empty where the liquid keeps its volume.
        """
        if not np.any(self.flask.drying):
            return [], 0.0
        step = NUDGE * y[-1]
        moved = self.rates([*y[:-1], y[-1] + step])
        slopes = [(one - other) / step for one, other in zip(moved, rates, strict=True)]
        return [*slopes[:-1], 0.0], -slopes[-1]

    def _counters(self, x: State, y: State, d: Any, taken: Any, b: State) -> None:
        """Fill in what only counts, from the solved states."""
        x0, thin = x[0], 1.0 / y[-1]
        ozone = y[0] * thin
        for chain, at in self._places:
            stages = len(chain.spoiling)
            sums: list[Any] = [0.0, 0.0, 0.0, 0.0]
            for stage in range(stages):
                moved, amount = x[at + stage], y[at + stage] * thin
                lost = chain.spoiling[stage] * (ozone * moved + amount * x0)
                off = chain.stripped[stage] * thin * moved
                for place, more in enumerate((lost, (stage + 1.0) * lost, off, stage * off)):
                    sums[place] = sums[place] + more
            for place, total in enumerate(sums):
                x[at + stages + place] = (b[at + stages + place] + total) / d
        x[-4] = (b[-4] + taken) / d
        x[-3] = (b[-3] - taken) / d
        x[-2] = (b[-2] + self.flask.solvent * x0) / d

    @cached_property
    def _places(self) -> tuple[tuple[Chain, int], ...]:
        found, at = [], 1
        for chain in self.flask.chains:
            found.append((chain, at))
            at += len(chain.spoiling) + len(PER_CHAIN)
        return tuple(found)

    @cached_property
    def _stages(self) -> tuple[tuple[Any, int], ...]:
        """All attacks on each stage together, and its place in the state."""
        return tuple(
            (chain.spoiling[n] + (chain.wanted[n] if n < len(chain.wanted) else 0.0), at + n)
            for chain, at in self._places
            for n in range(len(chain.spoiling))
        )

    def _demand(self, y: State, thin: Any) -> tuple[Any, Any]:
        """Return how fast ozone is used, per ozone, and the reactant that stands for all."""
        flask = self.flask
        demand: Any = flask.solvent + FAINT
        square: Any = flask.solvent * flask.liquid
        for rate, place in self._stages:
            amount = y[place] * thin
            share = rate * amount
            demand = demand + share
            square = square + share * amount
        return demand, square / demand

    def _wetted(self, left: Any) -> Any:
        """Return how near to saturated the gas leaves what is left of the liquid."""
        return 1.0 - _exp(-self.flask.kg * self.flask.area_time * (left - DRY))

    def _uptake(self, ozone: Any, demand: Any, reactant: Any, left: Any) -> Any:
        """Return the ozone that the liquid takes up, in mol/s over the first volume."""
        flask = self.flask
        hatta2 = demand * flask.diffusivity / flask.kl**2
        surface = flask.partition * flask.gas + abs(ozone) + FAINT
        limit = 1.0 + (abs(reactant) + FAINT) / surface * flask.diffusivity_ratio**0.5
        enhancement = enhancement_decoursey_1974(hatta=abs(hatta2) ** 0.5, instantaneous=limit)
        through = overall(
            kg=flask.kg, kl=flask.kl, partition=flask.partition, enhancement=enhancement
        )
        # the liquid stands lower as it shrinks, and the bubbles are in it for less time
        kept = _exp(-through * flask.area_time * left)
        back = ozone / ((1.0 + hatta2) * flask.partition)
        return flask.flow / flask.volume * (1.0 - kept) * (flask.gas - back)

    def _slopes(self, ozone: Any, demand: Any, reactant: Any, left: Any) -> tuple[Any, Any, Any]:
        """Return how the uptake changes with ozone, demand and reactant."""
        base = self._uptake(ozone, demand, reactant, left)
        found = []
        for place, value in enumerate((ozone, demand, reactant)):
            step = NUDGE * (abs(value) + FAINT)
            moved = [ozone, demand, reactant, left]
            moved[place] = value + step
            found.append((self._uptake(*moved) - base) / step)
        return found[0], found[1], found[2]


def _exp(value: Any) -> Any:
    return exp(value) if isinstance(value, float) else np.exp(value)
