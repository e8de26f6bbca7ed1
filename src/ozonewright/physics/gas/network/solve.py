"""Flows and pressures of a network of gas lines.

Each branch has one unknown s and each junction its pressure. Where s lies between the least and the
most flow of the branch it is the flow; what lies beyond counts as pressure: a shut check valve has
a flow of none and a pressure that is missing to open it, a flow controller at its setting has a
flow and a pressure that it takes. So every law of a part is one rising curve of s, and Newton's
method with a shortened step finds the crossing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotConverged
from ozonewright.physics.gas.network.branch import Branch, Network
from ozonewright.physics.gas.network.sparse import sparse_solution

ROUNDS = 50
HALVINGS = 40
CLOSE = 1e-11
"""Largest residual of a solution, as a share of the pressures and flows in it."""
NEAR = 1e-9
"""Residual at which rounding may end the search."""
LEAPS = 20
NOTHING = 1e-7
"""Where no flow is more than this share of the guess, nothing flows."""
LEAKS = (1.0, 0.3, 0.1, 0.03, 0.01, 1e-3, 1e-4, 1e-6, 1e-8, 0.0)
"""Where the search fails: how much a shut part is let leak, less and less."""
PASSAGE = 1e-7
"""Loss of every branch at a flow like the guess, as a share of the room's pressure: a hundredth of
a pascal. It keeps two branches without any loss of their own from being alike."""
STEP = 1e-7
"""Relative step of the derivatives."""

Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Solution:
    """Flows and pressures."""

    flows: tuple[float, ...]
    """Of each branch, positive from head to tail. [mol/s]"""
    pressures: tuple[float, ...]
    """Of each junction, absolute. [Pa]"""
    state: tuple[float, ...]
    """The unknowns, to begin a like network with."""
    rounds: int
    imbalance: float
    """Largest flow that is missing at a junction, as a share of the largest flow. [1]"""


def solve(*, network: Network, start: Sequence[float] | None = None) -> Solution:
    """Flows and pressures of a network.

    Parameters
    ----------
    network : Network
        Branches between junctions, suppliers and ends. [-]
    start : sequence of float, optional
        State of a like network to begin with. [-]

    Returns
    -------
    solution : Solution
        Flows of the branches and pressures of the junctions. [-]

    Raises
    ------
    NotConverged
        No solution was found within 50 rounds, nor by letting shut parts leak less and less; the
        residual is told.

    Valid
    -----
    Steady flow of an ideal gas; laws that lose more pressure with more flow.

    Source
    ------
    newton_damped

    Notes
    -----
    A step is halved until the sum of squared residuals falls.
    """
    system = _System(network)
    x = system.begin() if start is None else np.array(start, dtype=float)
    x, r, rounds = _newton(system, x)
    if _largest(r) > NEAR:
        x = system.begin()
        for leak in LEAKS:
            system.leak = leak
            x, r, more = _newton(system, x)
            rounds += more
    if _largest(r) <= NEAR:
        return system.solution(x, rounds)
    raise NotConverged(
        "the flows of this gas line were not found",
        got=f"a residual of {_largest(r):.2g} is left where {CLOSE:g} is wanted",
        fix="Look for parts without any loss between two suppliers, or a bore far off the others; "
        "mend or leave out the part and ask again.",
    )


def _newton(system: _System, x: Vector) -> tuple[Vector, Vector, int]:
    """Return where Newton's method ends, what is left there, and after how many rounds."""
    r, leaps = system.residual(x), 0
    for rounds in range(ROUNDS):
        if _largest(r) <= CLOSE:
            return x, r, rounds
        direction = _direction(system, x, r)
        there, left = _shortened(system, x, r, direction)
        if left is None:
            leaps += 1
            if _largest(r) <= NEAR or leaps > LEAPS:
                return x, r, rounds
            # At a kink of a law every short step goes uphill: leap over it.
            there = _leap(system, x, direction)
            left = system.residual(there)
        x, r = there, left
    return x, r, ROUNDS


def _leap(system: _System, x: Vector, direction: Vector) -> Vector:
    """Return the point a whole step away, or so far that every pressure stays above none."""
    length = 1.0
    while not system.possible(x + length * direction):
        length *= 0.5
    return x + length * direction


def _largest(r: Vector) -> float:
    return float(np.max(np.abs(r), initial=0.0))


def _direction(system: _System, x: Vector, r: Vector) -> Vector:
    """Return Newton's step: the branches are eliminated, the junctions solved for."""
    slopes, ends, weights = system.slopes(x.tolist(), r.tolist())
    rows: list[dict[int, float]] = [{junction: 0.0} for junction in range(system.junctions)]
    missing = r.tolist()
    right = missing[system.count :]
    for number, (slope, weight) in enumerate(zip(slopes, weights, strict=True)):
        for junction, sign in system.joins[number]:
            share = sign * weight / slope
            right[junction] -= share * missing[number]
            if share:
                for other, along in ends[number]:
                    rows[junction][other] = rows[junction].get(other, 0.0) + share * along
    pressures = sparse_solution(rows=rows, right=right)
    flows = [
        -(missing[number] + sum(along * pressures[other] for other, along in own)) / slope
        for number, (own, slope) in enumerate(zip(ends, slopes, strict=True))
    ]
    return np.array([*flows, *pressures])


def _shortened(
    system: _System, x: Vector, r: Vector, direction: Vector
) -> tuple[Vector, Vector | None]:
    """Return the point after a step that lowers the residual, and what is left there."""
    before, length = float(r @ r), 1.0
    for _ in range(HALVINGS):
        there = x + length * direction
        if system.possible(there):
            found = system.residual(there)
            if float(found @ found) < before * (1.0 - 1e-4 * length):
                return there, found
        length *= 0.5
    return x, None


class _System:
    """The equations of a network, in flows over the guess and pressures over the room's."""

    def __init__(self, network: Network) -> None:
        self.branches: Sequence[Branch] = network.branches
        self.count, self.junctions = len(network.branches), network.junctions
        self.flow, self.pressure = network.guess, network.ambient
        self.leak = 0.0
        self.least = [branch.least / self.flow for branch in self.branches]
        self.most = [branch.most / self.flow for branch in self.branches]
        self.joins: list[list[tuple[int, float]]] = [[] for _ in network.branches]
        """Of each branch the junctions it leads into, and out of."""
        for number, branch in enumerate(self.branches):
            if isinstance(branch.tail, int):
                self.joins[number].append((branch.tail, 1.0))
            if isinstance(branch.head, int):
                self.joins[number].append((branch.head, -1.0))

    def begin(self) -> Vector:
        """Return a state to begin with: some flow everywhere, pressures amid those at the ends."""
        flows = [0.3 if most > 0.0 else 0.0 for most in self.most]
        ends = [1.0]
        for branch in self.branches:
            if not isinstance(branch.head, int):
                known = branch.head if isinstance(branch.head, float) else branch.head.shut_off
                ends.append(known / self.pressure)
        amid = 0.5 * (max(ends) + min(ends))
        return np.array(flows + [amid] * self.junctions)

    def possible(self, x: Vector) -> bool:
        """Whether all pressures of a state are above none."""
        return bool(np.all(x[self.count :] > 0.0))

    def _flow(self, number: int, s: float) -> float:
        return min(max(s, self.least[number]), self.most[number])

    def _leaky(self, number: int, s: float) -> float:
        n = self._flow(number, s)
        return n + self.leak * (s - n)

    def residual(self, x: Vector) -> Vector:
        """Return the pressure missing in each branch, and the flow missing at each junction."""
        values = x.tolist()
        found = [self._missing(number, values) for number in range(self.count)]
        flows = [self._leaky(number, values[number]) for number in range(self.count)]
        return np.array([*found, *self._into(flows)])

    def _into(self, flows: Sequence[float]) -> list[float]:
        """Return the flow that each junction has too much."""
        found = [0.0] * self.junctions
        for flow, joins in zip(flows, self.joins, strict=True):
            for junction, sign in joins:
                found[junction] += sign * flow
        return found

    def _missing(self, number: int, x: Sequence[float]) -> float:
        s = x[number]
        n = self._flow(number, s)
        head, tail = self._ends(number, x, n)
        return self._gap(number, n, head, tail) - (s - n)

    def _ends(self, number: int, x: Sequence[float], n: float) -> tuple[float, float]:
        branch = self.branches[number]
        if isinstance(branch.head, int):
            head = x[self.count + branch.head]
        elif isinstance(branch.head, float):
            head = branch.head / self.pressure
        else:
            head = branch.head.outlet(n * self.flow, branch.head_gas) / self.pressure
        tail = branch.tail
        if isinstance(tail, int):
            return head, x[self.count + tail]
        return head, tail / self.pressure

    def _gap(self, number: int, n: float, head: float, tail: float) -> float:
        """Return by how much the head lies above what the flow needs."""
        branch = self.branches[number]
        if n < 0.0:
            needed = branch.tail_needed(-n * self.flow, head * self.pressure)
            return needed / self.pressure - PASSAGE * n - tail
        needed = branch.head_needed(n * self.flow, tail * self.pressure)
        return head - needed / self.pressure - PASSAGE * n

    def slopes(
        self, x: list[float], r: Sequence[float]
    ) -> tuple[list[float], list[list[tuple[int, float]]], list[float]]:
        """Return how each missing pressure goes with its s and its ends, and its flow with s."""
        slopes, weights = [-1.0] * self.count, [self.leak] * self.count
        ends: list[list[tuple[int, float]]] = [[] for _ in range(self.count)]
        for number, branch in enumerate(self.branches):
            s = x[number]
            if self.least[number] <= s < self.most[number]:
                # no law falls, so what is less than the loss of the passage is rounding
                slopes[number] = min(self._slope(number, number, x, r[number]), -PASSAGE)
                weights[number] = 1.0
            # The pressure before the parts counts by itself, the one behind them through them.
            back = self._flow(number, s) < 0.0
            before, behind = (branch.tail, branch.head) if back else (branch.head, branch.tail)
            if isinstance(before, int):
                ends[number].append((before, -1.0 if back else 1.0))
            if isinstance(behind, int):
                along = self._slope(number, self.count + behind, x, r[number])
                ends[number].append((behind, along))
        return slopes, ends, weights

    def _slope(self, number: int, place: int, values: list[float], base: float) -> float:
        """Return the derivative of the pressure missing in a branch."""
        kept = values[place]
        step = STEP * max(abs(kept), STEP**0.5)
        values[place] = kept + step
        found: float = (self._missing(number, values) - base) / step
        values[place] = kept
        return found

    def solution(self, x: Vector, rounds: int) -> Solution:
        """Return a state as flows and pressures."""
        values = x.tolist()
        flows = [self._flow(number, values[number]) for number in range(self.count)]
        flows = self._balanced(flows)
        missing = max(map(abs, self._into(flows)), default=0.0)
        largest = max((abs(flow) for flow in flows), default=0.0)
        return Solution(
            flows=tuple(flow * self.flow for flow in flows),
            pressures=tuple(p * self.pressure for p in values[self.count :]),
            state=tuple(values),
            rounds=rounds,
            imbalance=missing / largest if largest else 0.0,
        )

    def _balanced(self, flows: list[float]) -> list[float]:
        """Return the flows with what rounding left at the junctions spread over the branches."""
        largest = max(map(abs, flows), default=0.0)
        if largest < NOTHING:
            return [0.0] * self.count
        left = self._into(flows)
        if max(map(abs, left), default=0.0) <= CLOSE * largest:
            return flows
        rows: list[dict[int, float]] = [{junction: 0.0} for junction in range(self.junctions)]
        moving = [joins if flow else [] for flow, joins in zip(flows, self.joins, strict=True)]
        for joins in moving:
            for junction, sign in joins:
                for other, its in joins:
                    rows[junction][other] = rows[junction].get(other, 0.0) + sign * its
        shares = sparse_solution(rows=rows, right=left)
        return [
            flow - sum(sign * shares[junction] for junction, sign in joins)
            for flow, joins in zip(flows, moving, strict=True)
        ]
