"""Gas through the bottles, one after the other."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.liquid.swarm import Column, dissolved_ozone, share_left
from ozonewright.questions.absorber.draws import Array, Drawn
from ozonewright.questions.absorber.model import Change, Stream, column
from ozonewright.questions.absorber.train import Bottle
from ozonewright.records.absorber import Asked


@dataclass(frozen=True, slots=True)
class Train:
    """All that the answer's parts need of one set of bottles."""

    bottles: tuple[Bottle, ...]
    asked: Asked
    pressure: float
    drawn: Drawn

    def columns(
        self, gas: Stream, change: Change | None = None, correction: Real = 1.0
    ) -> list[Column]:
        """Return the bottles as bubbled liquid."""
        return [
            replace(
                column(bottle, gas, self.pressure, self.asked, self.drawn, change or Change()),
                correction=correction,
            )
            for bottle in self.bottles
        ]


@dataclass(frozen=True, slots=True)
class Passed:
    """What happens in one bottle."""

    column: Column
    before: Real
    """Ozone in the gas that enters. [mol/m3]"""
    dissolved: Real
    left: Real


def pass_through(columns: list[Column], gas: Stream) -> list[Passed]:
    """Return what happens in each bottle, one after the other."""
    ozone, found = gas.ozone, []
    for one in columns:
        before: Real = ozone / one.flow
        reacts = bool(np.any(np.asarray(one.reactant) > 0.0))
        dissolved = dissolved_ozone(column=one, gas=before) if reacts else 0.0 * before
        left = share_left(column=one, gas=before, dissolved=dissolved)
        found.append(Passed(one, before, dissolved, left))
        ozone = ozone * left
    return found


def as_array(value: Real) -> Array:
    """Return a number or numbers as an array."""
    return np.atleast_1d(np.asarray(value, dtype=float))
