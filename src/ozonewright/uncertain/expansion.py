"""The function near the best estimates, in standard uncertainties: slopes, curvature, budget."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import inf, sqrt
from statistics import NormalDist
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotApplicable
from ozonewright.uncertain.inputs import HALF_WIDTHS, Measured
from ozonewright.uncertain.origins import Origins

TOLERANCE = 0.10
"""Largest shift of an end of the interval, in u, that first order may hide.

JCGM 101, 8.1 compares both methods with half a unit of the last figure of u that matters: 5 to 50 %
of u when one figure matters, 0.5 to 5 % when two do. That rule jumps with the unit u is written
in; a tenth of u does not, and keeps the first figure of u right.
"""
ROUNDING = 64.0 * float(np.finfo(float).eps)
"""Relative size below which a difference of two function values is rounding, not curvature."""


@dataclass(frozen=True, slots=True, eq=False)
class Expansion:
    """One output near the best estimates; every figure in the unit of the output.

    `slope` of shape (n,) is half the difference across ±u of each input; `wide` the same across the
    wider step, scaled to one u; `curvature` of shape (n, n) the second differences across u.
    """

    value: float
    slope: NDArray[np.float64]
    wide: NDArray[np.float64]
    curvature: NDArray[np.float64]
    largest: float

    def u(self, origins: Origins) -> float:
        """Return the standard uncertainty of first order (JCGM 100, 5.1.2 and 5.2.2)."""
        return float(np.linalg.norm(origins.root.T @ self.slope))

    def u_second(self, origins: Origins) -> float:
        """Return the standard uncertainty with second order for normal inputs (5.1.2, note)."""
        tied = self.curvature @ origins.correlation
        return sqrt(self.u(origins) ** 2 + 0.5 * float(np.trace(tied @ tied)))

    def dof(self, origins: Origins) -> float:
        """Return the effective degrees of freedom by Welch and Satterthwaite (JCGM 100, G.4.1).

        That formula takes independent contributions. Inputs tied by a stated correlation are one
        contribution, with the degrees of freedom they share (Willink 2007) or the fewest.
        """
        whole, weighted = 0.0, 0.0
        for block in origins.blocks:
            variance = float(np.sum((origins.root[list(block)].T @ self.slope[list(block)]) ** 2))
            whole += variance
            weighted += variance**2 / min(origins.inputs[i].dof for i in block)
        return whole**2 / weighted if weighted > 0.0 else inf

    def shares(self, origins: Origins, *, second: bool) -> NDArray[np.float64]:
        """Return the share of the variance that each input brings; they sum to 1, or are all 0.

        With `second`, the terms of second order (JCGM 100, 5.1.2 note) are shared out as well, so
        that an input without slope shows up.
        """
        parts = self.slope * (origins.correlation @ self.slope)
        if second:
            tied = self.curvature @ origins.correlation
            parts = parts + 0.5 * np.sum(tied * tied.T, axis=1)
        total = float(parts.sum())
        return np.asarray(parts / total) if total > 0.0 else np.zeros_like(parts)

    def is_straight(self, origins: Origins, coverage: float) -> bool:
        """Say whether first order places both ends of the interval to within `TOLERANCE` u.

        The ends are foreseen from the mean, variance and skewness that curvature gives to normal
        inputs (Cornish and Fisher's first term), and from slopes that change with the step.
        """
        z = NormalDist().inv_cdf((1.0 + coverage) / 2.0)
        u = self.u(origins)
        tied = self.curvature @ origins.correlation
        leaning = origins.correlation @ self.slope
        variance = self.u_second(origins) ** 2
        third = 3.0 * float(leaning @ self.curvature @ leaning)
        third += float(np.trace(tied @ tied @ tied))
        lopsided = third * (z**2 - 1.0) / (6.0 * variance) if variance > 0.0 else 0.0
        uneven = abs(0.5 * float(np.trace(tied)) + lopsided)
        stretched = float(np.linalg.norm(origins.root.T @ self.wide)) - u
        even = z * (abs(self.u_second(origins) - u) + abs(stretched))
        return uneven + even <= max(TOLERANCE * u, ROUNDING * self.largest)


def expand(function: Callable[..., Any], origins: Origins) -> tuple[dict[str, Expansion], bool]:
    """Evaluate the function once, on all points that slopes and curvature need.

    Parameters
    ----------
    function : callable
        Pure and broadcasting, of the keys of the inputs.
    origins : Origins
        The n distinct uncertain inputs; 1 + 4 n + n (n - 1) points are evaluated.

    Returns
    -------
    expansions : dict of Expansion
        One per output.
    bare : bool
        The function returned a number rather than a mapping.
    """
    n = len(origins.inputs)
    one = np.eye(n)
    # Twice u, or the limit of a bounded shape: never where the input can't be.
    reach = np.array([min(2.0, HALF_WIDTHS[measured.shape]) for measured in origins.inputs])
    first, second = np.triu_indices(n, 1)
    pairs = one[:, first] + one[:, second]
    steps = [np.zeros((n, 1)), one, -one, one * reach, -one * reach, pairs, -pairs]
    deviation = np.concatenate(steps, axis=1)
    outputs, bare = origins.call(function, deviation)
    cuts = np.cumsum([step.shape[1] for step in steps])[:-1]
    expansions = {}
    for name, values in outputs.items():
        _refuse_missing(values, deviation, origins, name)
        centre, plus, minus, far, near, both, neither = np.split(values, cuts)
        bend = plus + minus - 2.0 * centre
        curvature = np.diag(bend)
        mixed = 0.5 * (both + neither - 2.0 * centre - bend[first] - bend[second])
        curvature[first, second] = curvature[second, first] = mixed
        expansions[name] = Expansion(
            value=float(centre[0]),
            slope=0.5 * (plus - minus),
            wide=0.5 * (far - near) / reach,
            curvature=curvature,
            largest=float(np.abs(values).max()),
        )
    return expansions, bare


def _refuse_missing(
    values: NDArray[np.float64], deviation: NDArray[np.float64], origins: Origins, output: str
) -> None:
    missing = ~np.isfinite(values)
    if not missing.any():
        return
    moved = deviation[:, int(np.argmax(missing))]
    off = [(one, by) for one, by in zip(origins.inputs, moved, strict=True) if by != 0.0]
    at = [f"{one.name} = {one.value + one.u * by:g}" for one, by in off]
    of = f" of {output}" if output else ""
    raise NotApplicable(
        f"the calculation{of} has no finite value within the uncertainty of its inputs"
        if at
        else f"the calculation{of} has no finite value at the inputs given",
        where=origins.names(np.flatnonzero(moved)),
        got=" and ".join(at),
        fix=_mend([one for one, _ in off]),
    )


def _mend(inputs: list[Measured]) -> str:
    if not inputs:
        return "Check for a zero or a sign where it can't be."
    if any(one.basis == "from digits" for one in inputs):
        return (
            "Typed to so few digits it may be anything down to nought: write it as read "
            "(1.0 in place of 1), or state its uncertainty with ±."
        )
    return "Check this reading and its uncertainty, or measure it again."
