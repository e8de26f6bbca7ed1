"""What goes in: a value, its standard uncertainty, its shape and the name of its origin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, isfinite, sqrt
from typing import Literal

from ozonewright.errors import InputError, MissingValue, OutOfBounds
from ozonewright.units import Kind

Shape = Literal["normal", "rectangular", "triangular", "arcsine"]

HALF_WIDTHS: dict[Shape, float] = {
    "normal": inf,
    "rectangular": sqrt(3.0),
    "triangular": sqrt(6.0),
    "arcsine": sqrt(2.0),
}
"""Half-width of each shape in standard uncertainties (JCGM 100, 4.3.7 and 4.3.9; QUAM 8.1)."""


@dataclass(frozen=True, slots=True)
class Measured:
    """One input of a calculation.

    Parameters
    ----------
    value : float
        Best estimate. [SI of `kind`]
    u : float
        One standard uncertainty, whatever the shape; zero means exact. [SI of `kind`]
    name : str
        The origin. Two inputs of one name are one shared input and must agree in everything.
    kind : Kind
        What the quantity is.
    shape : Shape
        What Monte Carlo draws: a normal (with finite `dof` a Student t scaled by `u`) or a bounded
        shape, whose `dof` counts for the coverage factor alone.
    dof : float
        Degrees of freedom behind `u`, at least 1; infinite when `u` is taken as known. [1]
    basis : str
        How `u` is known: stated, class A, class B, from digits, repeats, exact, assumed ...
    """

    value: float
    u: float
    name: str
    kind: Kind
    shape: Shape = "normal"
    dof: float = inf
    basis: str = "stated"

    def __post_init__(self) -> None:
        """Refuse what can't be a measured value."""
        if not self.name:
            raise MissingValue("an input without a name", fix="Name the origin of the reading.")
        if self.shape not in HALF_WIDTHS:
            raise InputError(
                "unknown shape",
                where=self.name,
                got=str(self.shape),
                fix="Use one of: " + ", ".join(HALF_WIDTHS) + ".",
            )
        faults = {
            "the value is not a finite number": (isfinite(self.value), self.value),
            "a standard uncertainty is zero or more": (isfinite(self.u) and self.u >= 0, self.u),
            "fewer than one degree of freedom": (self.dof >= 1, self.dof),
        }
        for what, (holds, got) in faults.items():
            if not holds:
                raise OutOfBounds(
                    what, where=self.name, got=f"{got:g}", fix="Check value, u and repeats."
                )


def from_tolerance(
    value: float,
    half_width: float,
    shape: Shape,
    name: str,
    kind: Kind,
    *,
    dof: float = inf,
    basis: str = "stated",
) -> Measured:
    """Return an input known to lie within `value` ± `half_width`, shaped as stated.

    Parameters
    ----------
    value, half_width : float
        Centre, and distance from it to either limit. [SI of `kind`]
    shape : Shape
        A bounded one: rectangular, triangular or arcsine.
    name, kind, dof, basis
        As in `Measured`.

    Returns
    -------
    measured : Measured
        With u = half_width / √3, √6 or √2. [SI of `kind`]
    """
    width = HALF_WIDTHS.get(shape, inf)
    if width == inf:
        raise InputError(
            "a tolerance needs a shape with limits",
            where=name,
            got=str(shape),
            fix="Use rectangular, triangular or arcsine, or state one standard uncertainty.",
        )
    return Measured(value, half_width / width, name, kind, shape, dof, basis)


def repeats(values: Sequence[float], name: str, kind: Kind, *, basis: str = "repeats") -> Measured:
    """Return the mean of repeated readings with the standard uncertainty of the mean, s/√n.

    Parameters
    ----------
    values : sequence of float
        Two or more readings of one quantity. [SI of `kind`]
    name, kind, basis
        As in `Measured`.

    Returns
    -------
    measured : Measured
        Normal, with n - 1 degrees of freedom. [SI of `kind`]
    """
    n = len(values)
    if n < 2:
        raise MissingValue(
            "one value has no spread" if n else "no value at all",
            where=name,
            fix="Repeat the measurement at least once, or state an uncertainty with ±.",
        )
    mean = fsum(values) / n
    variance = fsum((value - mean) ** 2 for value in values) / (n - 1)
    return Measured(mean, sqrt(variance / n), name, kind, "normal", n - 1, basis)
