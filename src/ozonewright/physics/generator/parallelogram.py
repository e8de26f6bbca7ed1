"""The parallelogram that a loop of charge against voltage is: two flat sides and two steep ones."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotApplicable
from ozonewright.physics import Real

Array = NDArray[np.float64]
TRIED = 61
"""Corners tried on a half cycle, then as many again about the best."""
EDGE = 0.03
"""Share of the swing next to both ends where no corner is looked for."""
LEAST = 10
"""Samples of a half cycle."""


class Sides(NamedTuple):
    """A half cycle of a loop as two straight lines that meet."""

    flat: Real
    """Slope before the corner. [F]"""
    steep: Real
    """Slope behind it. [F]"""
    corner_voltage: Real
    corner_charge: Real
    residual: Real
    """Root mean square of what the lines miss. [C]"""


def sides(*, voltage: Array, charge: Array) -> Sides:
    """Two straight lines that meet, through a half cycle of a loop.

    Parameters
    ----------
    voltage : array
        From one end of the swing to the other. [V]
    charge : array
        At these voltages. [C]

    Returns
    -------
    sides : Sides
        Slopes before and behind the corner, the corner, and what they miss. [-]

    Raises
    ------
    NotApplicable
        Fewer than ten samples.

    Valid
    -----
    A half cycle that is two straight sides: the gap first rests, then burns; its corner is not
    within 3 % of either end.

    Source
    ------
    manley_1943
    pipa_2019, review of the equivalent circuit

    Notes
    -----
    Least squares in charge; the corner is the best of a fine row of them.
    """
    if len(voltage) < 10:
        raise NotApplicable(
            "too few samples to find the sides of a loop",
            where="loop",
            got=str(len(voltage)),
            fix="Record more samples in a cycle.",
        )
    start, swing = voltage[0], voltage[-1] - voltage[0]
    x, y = (voltage - start) / swing, charge - charge[0]
    row = np.linspace(EDGE, 1.0 - EDGE, TRIED)
    step = row[1] - row[0]
    best = _best_corner(x, y, row)
    best = _best_corner(x, y, np.linspace(best - step, best + step, TRIED))
    (level, before, behind), missed = _bent_line(x, y, np.array([best]))
    return Sides(
        flat=float(before[0] / swing),
        steep=float(behind[0] / swing),
        corner_voltage=float(start + best * swing),
        corner_charge=float(charge[0] + level[0]),
        residual=float(np.sqrt(missed[0] / len(x))),
    )


def _best_corner(x: Array, y: Array, row: Array) -> float:
    return float(row[np.argmin(_bent_line(x, y, row)[1])])


def _bent_line(x: Array, y: Array, row: Array) -> tuple[Array, Array]:
    """Return level at the corner and both slopes, shape (3, corners), and the squares missed."""
    away = x - row[:, None]
    base = np.stack([np.ones_like(away), np.minimum(away, 0.0), np.maximum(away, 0.0)], axis=1)
    normal = base @ base.transpose(0, 2, 1)
    found = np.linalg.solve(normal, (base @ y)[..., None])[..., 0]
    missed = np.sum((y - np.einsum("ck,ckn->cn", found, base)) ** 2, axis=1)
    return found.T, missed


def gap_voltage_of_sides(
    *,
    rising_voltage: Real,
    rising_charge: Real,
    rising_slope: Real,
    falling_voltage: Real,
    falling_charge: Real,
    falling_slope: Real,
    charge: Real,
) -> Real:
    """Voltage over the gap while it burns: half the breadth of a loop between its steep sides.

    Parameters
    ----------
    rising_voltage : float
        Of a point on the steep side that rises. [V]
    rising_charge : float
        Of the same point. [C]
    rising_slope : float
        Of that side. [F]
    falling_voltage : float
        Of a point on the steep side that falls. [V]
    falling_charge : float
        Of the same point. [C]
    falling_slope : float
        Of that side. [F]
    charge : float
        Middle of the loop, where its breadth is taken. [C]

    Returns
    -------
    voltage : float
        Over the gap. [V]

    Raises
    ------
    None

    Valid
    -----
    All of the gap burns, with one voltage in both directions; else it is a mean.

    Source
    ------
    manley_1943
    pipa_2019, review of the equivalent circuit

    Notes
    -----
    While the gap burns Q = C_d (V - V_g) upward and C_d (V + V_g) downward.
    """
    rising = rising_voltage + (charge - rising_charge) / rising_slope
    falling = falling_voltage + (charge - falling_charge) / falling_slope
    return 0.5 * (rising - falling)
