"""A measured slip corrects the model: by how much transfer must differ to give it."""

from __future__ import annotations

from collections.abc import Callable
from math import log

import numpy as np

from ozonewright.errors import NotApplicable
from ozonewright.physics import Real
from ozonewright.physics.liquid.in_a_row import guard_share, in_series
from ozonewright.questions.absorber.draws import Array, Drawn
from ozonewright.records.absorber import Asked

LEAST, MOST = 1e-2, 1e2
HALVINGS = 26


def correction(asked: Asked, drawn: Drawn, lefts: Callable[[Real], list[Real]]) -> Array | None:
    """Return what transfer is to be multiplied by, for each draw; None where nothing was measured.

    Raises
    ------
    NotApplicable
        No transfer between a hundredth and a hundred times the model's gives what was measured.
    """
    measured = asked.guard_share or asked.slip_share
    if measured is None:
        return None
    wanted = drawn.of(measured)

    def slipped(factor: Real) -> Array:
        passed = lefts(factor)
        share = guard_share(lefts=passed) if asked.guard_share else in_series(lefts=passed)
        return np.asarray(share, dtype=float)

    ends = [float(np.atleast_1d(slipped(end))[0]) for end in (MOST, LEAST)]
    if not ends[0] < measured.value < ends[1]:
        raise NotApplicable(
            "no transfer in these bottles gives this",
            where="guard_share" if asked.guard_share else "slip",
            got=f"{100.0 * measured.value:.3g} %",
            fix=f"These bottles can give {100.0 * ends[0]:.2g} to {100.0 * ends[1]:.2g} %: check "
            "iodide, volumes and titres; ozone may be lost before the bottles or iodine from "
            "them.",
        )
    low = np.full(wanted.shape, log(LEAST))
    high = np.full(wanted.shape, log(MOST))
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        too_much = slipped(np.exp(middle)) > wanted
        low, high = np.where(too_much, middle, low), np.where(too_much, high, middle)
    return np.asarray(np.exp(0.5 * (low + high)))
