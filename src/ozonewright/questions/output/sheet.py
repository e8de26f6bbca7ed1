"""A sheet of named inputs and of the calculations that turn them into outputs.

It composes physics; it holds no formula of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from ozonewright.references.constants import NORMAL_TEMPERATURE
from ozonewright.uncertain import Measured

ROOM_TEMPERATURE = NORMAL_TEMPERATURE + 20.0
"""At which volumetric glass and stated concentrations hold (ISO 384)."""

FAR_FROM_ZERO = 5.0
"""Standard uncertainties between zero and a value that something is divided by."""

Values = Mapping[str, Any]
Calculation = Callable[[Values], Any]


@dataclass
class Sheet:
    """Collects named inputs, and the calculations that turn them into outputs."""

    inputs: dict[str, Measured] = field(default_factory=dict)
    outputs: dict[str, Calculation] = field(default_factory=dict)
    unknowns: list[str] = field(default_factory=list)
    assumed: list[str] = field(default_factory=list)
    """Codes of what was taken for granted where a field was left empty."""
    sources: list[str] = field(default_factory=list)

    def take(self, value: Measured) -> Calculation:
        """Make a reading an input, and return the calculation that looks it up."""
        key = "".join(letter if letter.isalnum() else "_" for letter in value.name)
        known = self.inputs.setdefault(key, value)
        while known != value:
            key += "_"
            known = self.inputs.setdefault(key, value)
        return lambda values: values[key]

    def mean(self, values: Sequence[Measured]) -> Calculation:
        """Make the mean of repeats an input; their scatter joins what one reading is worth."""
        if len(values) == 1:
            return self.take(values[0])
        each = [self.take(value) for value in values]
        scatter = self.take(repeat_scatter(values))
        return lambda v: sum(one(v) for one in each) / len(each) + scatter(v)

    def clear_of_zero(self, calculation: Calculation) -> bool:
        """Whether a value may be divided by: it stays away from zero across its uncertainty."""
        best = {key: one.value for key, one in self.inputs.items()}
        value = float(calculation(best))
        variance = sum(
            (float(calculation(best | {key: one.value + one.u})) - value) ** 2
            for key, one in self.inputs.items()
            if one.u > 0.0
        )
        return value > FAR_FROM_ZERO * variance**0.5 and value > 0.0

    def evaluate(self, **values: Any) -> dict[str, Any]:
        """Return every output; the function that is propagated."""
        return {name: calculation(values) for name, calculation in self.outputs.items()}


def repeat_scatter(values: Sequence[Measured]) -> Measured:
    """Return a zero whose uncertainty is the scatter of the mean of repeats (type A)."""
    count = len(values)
    mean = sum(value.value for value in values) / count
    variance = sum((value.value - mean) ** 2 for value in values) / (count - 1) / count
    name = values[0].name.partition(", reading")[0]
    return Measured(
        0.0,
        variance**0.5,
        f"{name}, scatter of repeats",
        values[0].kind,
        dof=count - 1,
        basis="repeats",
    )


def nothing(values: Values) -> float:
    """Return zero: an input that nobody stated and that takes no part."""
    return 0.0
