"""What a cause of drift is: parameters that are each a map from a standard normal."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from ozonewright.physics.assay.plan import amount_of_ozone
from ozonewright.questions.drift.series import Array, Facts
from ozonewright.references.priors import prior
from ozonewright.units import Kind

Shape = Literal["log", "below", "value", "logit"]


@dataclass(frozen=True, slots=True)
class Parameter:
    """A number that a cause sets; neutral where the cause is absent."""

    name: str
    shape: Shape
    centre: float
    spread: float
    kind: Kind
    """What it is shown as; an amount or amount rate is shown as ozone by mass."""

    def value(self, z: Array) -> Array:
        """Return the value at so many standard deviations of what was thought before."""
        if self.shape == "value":
            return self.centre + self.spread * z
        if self.shape == "logit":
            return np.asarray(1.0 / (1.0 + np.exp(-(self.centre + self.spread * z))))
        grown = self.centre * np.exp(self.spread * z)
        # A cold generator can't give less than nothing: an excess stays above -1.
        return -grown / (1.0 + grown) if self.shape == "below" else np.asarray(grown)


def parameter(name: str, row: str, shape: Shape = "log", times: float = 1.0) -> Parameter:
    """Return a parameter by the row of the table of priors."""
    found = prior(row)
    centre, kind = found.centre.value * times, found.centre.kind
    if kind in (Kind.MASS, Kind.MASS_RATE):
        centre = float(amount_of_ozone(mass=centre))
    return Parameter(name, shape, centre, found.spread, kind)


@dataclass(frozen=True, slots=True)
class Variant:
    """One way in which a cause may act."""

    weight: float
    parameters: tuple[Parameter, ...]
    fixed: Mapping[str, float] = field(default_factory=dict)


def always(facts: Facts) -> bool:
    """Say that a cause shows in any series."""
    return True


@dataclass(frozen=True, slots=True)
class Cause:
    """One cause: its parameters, and where it belongs."""

    name: str
    kind: str
    """Class of causes: steady, blank, handling, generator, trap, reading, other."""
    variants: Callable[[Facts], tuple[Variant, ...]]
    group: str = ""
    """Causes told alike unless a run of another kind tells them apart."""
    shows: Callable[[Facts], bool] = always
    """Whether the series can show it at all; if not, it can't be told."""
    hides: bool = False
    """Where the series can't show it, it is there all the same, as likely as beforehand: it moves
    every run by the same share."""
    weight: float = 1.0
    """Chance beforehand over that of any other cause (judgement)."""
    pairs: bool = True
    ordered: bool = False
    """It acts by the order of the runs, so the run it moves most says whether it matters."""

    @property
    def family(self) -> str:
        """The told-alike group, or the cause itself."""
        return self.group or self.name


def one(*parameters: Parameter, **fixed: float) -> tuple[Variant, ...]:
    """Return the variants of a cause that acts in one way."""
    return (Variant(1.0, parameters, fixed),)


def iodine_by_itself(name: str, prior: str, facts: Facts) -> tuple[Variant, ...]:
    """Return the variants of iodine that ozone did not free; a guard bottle has another share."""
    surplus = parameter(name, prior)
    if facts.guard:
        return one(surplus, parameter("blank_in_guard", "BLANK_IN_GUARD", "logit"))
    return one(surplus)
