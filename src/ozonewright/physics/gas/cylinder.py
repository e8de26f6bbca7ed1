"""What a gas cylinder holds."""

from __future__ import annotations

import numpy as np

from ozonewright.errors import NoDataInRange
from ozonewright.physics import Real
from ozonewright.references.constants import R
from ozonewright.references.cylinder_gas import cylinder_gas

POINTS = 4
"""Grid points used in each direction: a cubic."""


def compressibility_factor(*, gas: str, temperature: Real, pressure: Real) -> Real:
    """Real-gas factor p V/(n R T) of a gas in a cylinder.

    Parameters
    ----------
    gas : str
        Oxygen, nitrogen or air. [-]
    temperature : float
        Of the gas. [K]
    pressure : float
        Absolute. [Pa]

    Returns
    -------
    compressibility_factor : float
        1 for the ideal gas. [1]

    Raises
    ------
    NoDataInRange
        Outside -50..100 °C or 0..320 bar; nothing is extrapolated.
    UnknownSubstance
        No table for this gas.

    Valid
    -----
    -20..50 °C and 1..250 bar: within 2e-5 of the library (cubic between table points).

    Source
    ------
    bell_2014, table made by docs/make_cylinder_gas.py

    Example
    -------
    Oxygen at 15 °C and 150 bar: 0.9291.
    """
    grid = cylinder_gas(gas)
    factors = np.asarray(grid.factors)
    row, rows = _cubic(grid.temperatures, temperature, "temperature")
    column, columns = _cubic(grid.pressures, pressure, "pressure")
    row, column = np.broadcast_arrays(row, column)
    total = sum(
        rows[i] * columns[k] * factors[row + i, column + k]
        for i in range(POINTS)
        for k in range(POINTS)
    )
    return float(total) if np.ndim(total) == 0 else np.asarray(total)


def _cubic(points: tuple[float, ...], x: Real, name: str) -> tuple[np.ndarray, list[np.ndarray]]:
    """Return the first of four points around x, and the weight of each (Lagrange)."""
    x = np.asarray(x, dtype=float)
    if not (np.all(x >= points[0]) and np.all(x <= points[-1])):
        raise NoDataInRange(
            f"the {name} lies outside the table of the cylinder gases",
            where=name,
            got=f"{float(x.min()):.6g} to {float(x.max()):.6g}" if x.ndim else f"{float(x):.6g}",
            fix="The table holds -50 to 100 °C and 0 to 320 bar absolute: check the reading.",
        )
    place = (x - points[0]) / (points[1] - points[0])
    first = np.clip(np.floor(place).astype(int) - 1, 0, len(points) - POINTS)
    t = place - first
    weights = []
    for i in range(POINTS):
        weight = np.ones_like(t)
        for other in range(POINTS):
            if other != i:
                weight = weight * (t - other) / (i - other)
        weights.append(weight)
    return first, weights


def amount_in_cylinder(
    *, volume: Real, temperature: Real, pressure: Real, compressibility: Real
) -> Real:
    """Amount of gas in a cylinder from its water capacity and pressure.

    Parameters
    ----------
    volume : float
        Water capacity. [m3]
    temperature : float
        Of the gas. [K]
    pressure : float
        Absolute. [Pa]
    compressibility : float
        Real-gas factor there. [1]

    Returns
    -------
    amount : float
        Gas. [mol]

    Raises
    ------
    None

    Valid
    -----
    By definition of the factor.

    Source
    ------
    tiesinga_2021

    Notes
    -----
    n = p V/(Z R T). In normal cubic metres on the basis 22.41397 L/mol; a real normal litre of
    oxygen holds 22.392 L/mol (bell_2014), so a figure on that basis is 0.10 % smaller.
    """
    return pressure * volume / (compressibility * R * temperature)
