"""Draws of what an absorber's answer rests on; the first of each is the best estimate."""

from __future__ import annotations

from math import log

import numpy as np
from numpy.typing import NDArray

from ozonewright.references.ozone_solubility import absorption
from ozonewright.uncertain import Estimate, Measured
from ozonewright.uncertain.inputs import Shape
from ozonewright.uncertain.positive import estimate_of, positive_draws
from ozonewright.units import Kind

DRAWS = 400
Array = NDArray[np.float64]


class Drawn:
    """Inputs by name, each drawn once; an input of one name is one input."""

    def __init__(self, draws: int = DRAWS, seed: int = 0) -> None:
        self.draws, self.seed = draws, seed
        self.inputs: dict[str, Array | float] = {}

    def of(self, measured: Measured) -> Array:
        """Return the best estimate and, behind it, the draws."""
        found = positive_draws(measured, draws=self.draws, seed=self.seed)
        self.inputs[measured.name] = found
        return np.concatenate([[measured.value], np.broadcast_to(found, self.draws)])

    def factor(self, name: str, spread: str, shape: Shape = "normal") -> Array:
        """Return a factor around 1 whose relative u a table states."""
        u = absorption(spread).value
        return self.of(Measured(1.0, u, name, Kind.DIMENSIONLESS, shape=shape, basis="table"))

    def figure(self, name: str, row: str, shape: Shape = "rectangular") -> Array:
        """Return a figure that a table states with its u."""
        datum = absorption(row)
        measured = Measured(
            datum.value, datum.u or 0.0, name, datum.kind, shape=shape, basis="table"
        )
        return self.of(measured)

    def place(self, name: str) -> Array:
        """Return a place between 0 and 1 of which nothing is known, a half as best estimate."""
        return self.of(
            Measured(0.5, 0.5 / 3.0**0.5, name, Kind.DIMENSIONLESS, "rectangular", basis="band")
        )

    def around(self, name: str, u: float) -> Array:
        """Return a factor around 1 of a relative u."""
        return self.of(Measured(1.0, u, name, Kind.DIMENSIONLESS, basis="table"))

    def within(self, name: str, spread: str) -> Array:
        """Return a factor that may be so large either way, on a logarithmic scale."""
        return np.exp((2.0 * self.place(name) - 1.0) * log(absorption(spread).value))

    def estimate(self, values: Array) -> Estimate:
        """Return what the draws of a result say."""
        return estimate_of(float(values[0]), values[1:], self.inputs)
