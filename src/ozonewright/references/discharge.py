"""Rate constants of a discharge's gas, and what is thought of a generator before any run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.constants import constant
from ozonewright.references.tables import Datum, datum, named, rows

PER_MOLE = constant("AVOGADRO").value * 1e-6
"""cm³ per molecule as m³/mol: the tables print the former."""


@dataclass(frozen=True, slots=True)
class Arrhenius:
    """k = a (T / 300 K)^n exp(-b / T), with a in m³/(mol s) or m⁶/(mol² s)."""

    a: float
    n: float
    b: float
    """[K]"""


@dataclass(frozen=True, slots=True)
class Belief:
    """A centre in SI, and how far from it one may be."""

    centre: Datum
    spread: float
    """Standard deviation of the logarithm; nought for what is taken as it is. [1]"""


@cache
def _rates() -> dict[str, Arrhenius]:
    return {
        row["name"]: Arrhenius(
            a=float(row["a"]) * PER_MOLE ** (2 if of_three(row["name"]) else 1),
            n=float(row["n"]),
            b=float(row["b"]),
        )
        for row in rows("discharge_rates")
    }


def of_three(name: str) -> bool:
    """Return whether a reaction's constant is that of three bodies."""
    return name.endswith(("_LOW", "_O2_O2", "_O2_N2", "_O2_M", "_HO2_M"))


def gas_rate(name: str) -> Arrhenius:
    """Return the rate constant of a reaction between gases, such as ``O_O3``.

    Raises
    ------
    NoDataInRange
        No such reaction; the nearest three are told.
    """
    return named(_rates(), name, "no reaction has this name")


@cache
def _beliefs() -> dict[str, Belief]:
    return {
        row["name"]: Belief(datum(row), float(row["spread"])) for row in rows("discharge_priors")
    }


def belief(name: str) -> Belief:
    """Return what is thought of a generator beforehand, such as ``LOSS``.

    Raises
    ------
    NoDataInRange
        No such belief; the nearest three are told.
    """
    return named(_beliefs(), name, "nothing is thought of this")
