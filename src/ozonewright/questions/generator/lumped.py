"""What is not known of a generator: each as a factor on what is thought of it beforehand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ozonewright.questions.generator.points import Basis, Point
from ozonewright.references.discharge import Belief, belief

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Lumped:
    """The unknowns of one generator, in order, and the basis of its power."""

    names: tuple[str, ...]
    basis: Basis
    usual_power: float | None
    """Middle power of the runs, to which the unread rise of the wall belongs. [W]"""

    def values(self, deviations: Array) -> Mapping[str, Array]:
        """Return each unknown from its deviations, shape (draws, unknowns), as (draws, 1)."""
        found = {}
        for column, name in enumerate(self.names):
            known = self.belief(name)
            factor = np.exp(known.spread * deviations[:, column : column + 1])
            found[name] = known.centre.value * factor
        return found

    def belief(self, name: str) -> Belief:
        """Return what is thought of one unknown."""
        key = f"efficiency_{self.basis}" if name == "efficiency" else name
        return belief(key.upper())


def unknowns_of(points: Sequence[Point]) -> Lumped:
    """Return what the answers at these points hang on."""
    bases = {point.power_at for point in points if point.power is not None}
    basis: Basis = "discharge" if bases == {"discharge"} else "plug"
    powers = [point.power for point in points if point.power is not None]
    # What no run hangs on stays as it was thought beforehand, and widens what is predicted.
    names: tuple[str, ...] = (
        "efficiency", "loss", "nitrogen", "nox", "gap", "warmth", "wall_rise", "scatter",
    )  # fmt: skip
    names += ("damp",) if any(point.water is None for point in points) else ()
    names += ("supply",) if bases == {"plug", "discharge"} else ()
    names += ("power",) if len(powers) < len(points) else ()
    return Lumped(names, basis, float(np.median(powers)) if powers else None)
