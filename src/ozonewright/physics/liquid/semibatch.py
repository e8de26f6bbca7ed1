"""A flask into which ozone bubbles: what enters, what reacts, what is stripped. SI."""

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
"""Relative step of the two derivatives that are taken by difference."""


@dataclass(frozen=True, slots=True)
class Chain:
    """One substrate: the wanted attacks in a row, and what spoils each stage."""

    wanted: tuple[Any, ...]
    """Rate constant of each wanted attack; the last stage, the product, has none. [m3/(mol s)]"""
    spoiling: tuple[Any, ...]
    """Rate constant of the attack that spoils each stage, the product the last. [m3/(mol s)]"""
    stripped: tuple[Any, ...]
    """Of each stage, carried off by the gas. [1/s]"""


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

    def of(self, pick: Callable[[Any], Any]) -> Flask:
        """Return the flask with every figure picked from its draws."""
        names = (
            "flow", "gas", "volume", "partition", "kl", "kg", "diffusivity", "area_time",
            "diffusivity_ratio", "solvent",
        )  # fmt: skip
        chains = tuple(
            Chain(*(tuple(pick(one) for one in part)
                    for part in (chain.wanted, chain.spoiling, chain.stripped)))
            for chain in self.chains
        )  # fmt: skip
        return replace(self, **{name: pick(getattr(self, name)) for name in names}, chains=chains)


COUNTERS = ("absorbed", "passed", "to_solvent")
"""States behind the chains: ozone taken up, slipped past, gone to the solvent. [mol/m3]"""
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
        Dissolved ozone; of each chain its stages and what is spoilt and stripped; counters.
        [mol/m3]

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
    return [*state, *(zero for _ in COUNTERS)]


@dataclass(frozen=True)
class SemiBatch:
    """Rates of a flask, and the solve with their Jacobian."""

    flask: Flask

    def rates(self, y: State) -> State:
        """Return dy/dt."""
        flask, ozone = self.flask, y[0]
        demand, weighted = self._demand(y)
        taken = self._uptake(ozone, demand, weighted)
        out: State = [taken - demand * ozone]
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
                off = chain.stripped[stage] * amount
                out.append(before - on - lost - off)
                before = on
                spoilt, bound = spoilt + lost, bound + (stage + 1.0) * lost
                gone, gone_with = gone + off, gone_with + stage * off
            out += [spoilt, bound, gone, gone_with]
        fed = flask.flow * flask.gas / flask.volume
        return [*out, taken, fed - taken, flask.solvent * ozone]

    def solver(self, y: State, d: Any) -> Callable[[State], State]:
        """Return what solves (d - J) x = b: an arrow of ozone over chains."""
        ozone = y[0]
        demand, weighted = self._demand(y)
        by_ozone, by_demand, by_weighted = self._slopes(ozone, demand, weighted)
        rows = []
        q: list[Any] = []
        corner = d - by_ozone + demand
        for chain, at in self._places:
            before: Any = 0.0
            for stage in range(len(chain.spoiling)):
                amount = y[at + stage]
                wanted = chain.wanted[stage] if stage < len(chain.wanted) else 0.0
                rate = wanted + chain.spoiling[stage]
                slope = by_demand * rate + by_weighted * rate * (2.0 * amount - weighted) / demand
                # of ozone by this stage; of this stage by ozone
                over, under = slope - rate * ozone, before - rate * amount
                pivot = 1.0 / (d + rate * ozone + chain.stripped[stage])
                carried = chain.wanted[stage - 1] * ozone if stage else 0.0
                q.append((under + carried * q[-1] if stage else under) * pivot)
                corner = corner - over * q[-1]
                rows.append((at + stage, stage, carried, pivot, over, slope))
                before = wanted * amount
        corner = 1.0 / corner

        def solve(b: State) -> State:
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
            return x

        return solve

    def _counters(self, x: State, y: State, d: Any, taken: Any, b: State) -> None:
        """Fill in what only counts, from the solved states."""
        ozone, x0 = y[0], x[0]
        for chain, at in self._places:
            stages = len(chain.spoiling)
            sums: list[Any] = [0.0, 0.0, 0.0, 0.0]
            for stage in range(stages):
                moved, amount = x[at + stage], y[at + stage]
                lost = chain.spoiling[stage] * (ozone * moved + amount * x0)
                off = chain.stripped[stage] * moved
                for place, more in enumerate((lost, (stage + 1.0) * lost, off, stage * off)):
                    sums[place] = sums[place] + more
            for place, total in enumerate(sums):
                x[at + stages + place] = (b[at + stages + place] + total) / d
        x[-3] = (b[-3] + taken) / d
        x[-2] = (b[-2] - taken) / d
        x[-1] = (b[-1] + self.flask.solvent * x0) / d

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

    def _demand(self, y: State) -> tuple[Any, Any]:
        """Return how fast ozone is used, per ozone, and the reactant that stands for all."""
        flask = self.flask
        demand: Any = flask.solvent + FAINT
        square: Any = 0.0
        for rate, place in self._stages:
            share = rate * y[place]
            demand = demand + share
            square = square + share * y[place]
        return demand, square / demand

    def _uptake(self, ozone: Any, demand: Any, reactant: Any) -> Any:
        """Return the ozone that the liquid takes up, in mol/(m3 s)."""
        flask = self.flask
        hatta2 = demand * flask.diffusivity / flask.kl**2
        surface = flask.partition * flask.gas + abs(ozone) + FAINT
        limit = 1.0 + (abs(reactant) + FAINT) / surface * flask.diffusivity_ratio**0.5
        enhancement = enhancement_decoursey_1974(hatta=abs(hatta2) ** 0.5, instantaneous=limit)
        through = overall(
            kg=flask.kg, kl=flask.kl, partition=flask.partition, enhancement=enhancement
        )
        spent = -through * flask.area_time
        kept = exp(spent) if isinstance(spent, float) else np.exp(spent)
        back = ozone / ((1.0 + hatta2) * flask.partition)
        return flask.flow / flask.volume * (1.0 - kept) * (flask.gas - back)

    def _slopes(self, ozone: Any, demand: Any, reactant: Any) -> tuple[Any, Any, Any]:
        """Return how the uptake changes with ozone, demand and reactant."""
        base = self._uptake(ozone, demand, reactant)
        found = []
        for place, value in enumerate((ozone, demand, reactant)):
            step = NUDGE * (abs(value) + FAINT)
            moved = [ozone, demand, reactant]
            moved[place] = value + step
            found.append((self._uptake(*moved) - base) / step)
        return found[0], found[1], found[2]
