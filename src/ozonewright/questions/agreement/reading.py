"""What a binding reads from a case, and what it gives back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from ozonewright.references.gases import MOLAR_MASS
from ozonewright.units import Kind, parse

Inputs = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Found:
    """One figure as our functions give it: SI of a kind, or already in a printed unit."""

    value: float
    kind: Kind | str
    """Of an SI value; or the unit, where the table of units has no kind for it."""


Binding = Callable[[Inputs], Mapping[str, Found]]
"""From the inputs of a case to its figures by name; only the figures it asks for are compared."""

CARRIERS = {"oxygen": MOLAR_MASS["oxygen"], "dry air": MOLAR_MASS["air"]}
"""Molar mass of the gas that a case calls so."""


def si(inputs: Inputs, name: str, kind: Kind) -> float:
    """Return an input of a case in SI."""
    return parse(inputs[name], kind)


def carrier(inputs: Inputs, name: str = "carrier") -> float:
    """Return the molar mass of the gas that a case names. [kg/mol]"""
    return CARRIERS[inputs[name]]
