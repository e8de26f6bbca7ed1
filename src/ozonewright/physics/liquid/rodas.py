"""A stiff solver of our own: Rodas4, one step for a number or for many draws at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np

State = Any
"""One entry for each state: a list of floats, or an array of states by draws."""

GAMMA = 0.25
A = (
    (),
    (1.544000000000000,),
    (0.9466785280815826, 0.2557011698983284),
    (3.314825187068521, 2.896124015972201, 0.9986419139977817),
    (1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950),
)
C = (
    (),
    (-5.668800000000000,),
    (-2.430093356833875, -0.2063599157091915),
    (-0.1073529058151375, -9.594562251023355, -20.47028614809616),
    (7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160),
    (8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136,
     -6.058818238834054),
)  # fmt: skip
H2 = (10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823,
      1.025137723295662)  # fmt: skip
H3 = (-0.6762803392801253, 6.087714651680015, 16.43084320892478, 24.76722511418386,
      -6.594389125716872)  # fmt: skip


class System(Protocol):
    """Rates of change that do not depend on time, and the linear solve of their Jacobian."""

    def rates(self, y: State) -> State:
        """Return dy/dt."""

    def solver(self, y: State, d: Any, rates: State) -> Callable[[State], State]:
        """Return what solves (d - J) x = b at a state, with its rates for differences."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step: where it ends, its error, and what lies between."""

    start: State
    end: State
    error: State
    second: State
    third: State

    def at(self, share: Any) -> State:
        """Return the state at a share of the step."""
        rest = 1.0 - share
        return [
            rest * a + share * (b + rest * (c + share * d))
            for a, b, c, d in zip(self.start, self.end, self.second, self.third, strict=True)
        ]

    def of(self, draws: Any) -> Step:
        """Return the step of some draws alone."""
        names = (self.start, self.end, self.error, self.second, self.third)
        return Step(*(one[:, draws] for one in names))


def rodas_step(*, system: System, y: State, h: Any) -> Step:
    """One step of Rodas4.

    Parameters
    ----------
    system : System
        Rates, and the solve with their Jacobian. [-]
    y : list
        The state. [-]
    h : float
        Length of the step, in the system's unit of time. [-]

    Returns
    -------
    step : Step
        Its end is of fourth order, its error of third. [-]

    Raises
    ------
    None

    Valid
    -----
    Stiff systems without time in them; linear balances of the rates hold to rounding.

    Source
    ------
    hairer_1996, method RODAS: coefficients from memory, order checked by a test
    """
    inverse = 1.0 / h
    first = system.rates(y)
    solve = system.solver(y, inverse / GAMMA, first)
    whole = isinstance(y, np.ndarray)
    stages: Any = np.empty((6, *y.shape)) if whole else [None] * 6

    def keep(number: int, found: State) -> None:
        if whole:
            np.stack(found, out=stages[number])
        else:
            stages[number] = found

    keep(0, solve(first))
    for number in range(1, 5):
        at = _sum(y, A[number], stages)
        keep(number, solve(_sum(system.rates(at), C[number], stages, inverse)))
    at = _added(at, stages[4])
    keep(5, solve(_sum(system.rates(at), C[5], stages, inverse)))
    end = _added(at, stages[5])
    zero = np.zeros_like(y) if whole else [0.0] * len(y)
    return Step(y, end, stages[5], _sum(zero, H2, stages), _sum(zero, H3, stages))


def _added(state: State, more: State) -> State:
    if isinstance(state, np.ndarray):
        return state + more
    return [one + other for one, other in zip(state, more, strict=True)]


def _sum(start: State, weights: Sequence[float], stages: Any, by: Any = None) -> State:
    """Return the start and the weighted stages, these times `by`."""
    if isinstance(stages, np.ndarray):
        total: Any = weights[0] * stages[0]
        more = np.empty_like(total)
        for weight, stage in zip(weights[1:], stages[1:], strict=False):
            total += np.multiply(stage, weight, out=more)
        if by is not None:
            total *= by
        total += start
        return total
    out = []
    for place, first in enumerate(start):
        total = weights[0] * stages[0][place]
        for weight, stage in zip(weights[1:], stages[1:], strict=False):
            total = total + weight * stage[place]
        out.append(first + (total if by is None else total * by))
    return out
