"""What off-gas, iodide behind the flask and colour show, and when they turn."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from ozonewright.physics.liquid.iodide_trap import colouring_time
from ozonewright.questions.absorber.draws import Array, Drawn
from ozonewright.questions.absorber.moments import at_times, first_rise
from ozonewright.questions.absorber.simulate import MINUTE, Simulated
from ozonewright.records.sign import SignRow
from ozonewright.references.ozone_solubility import absorption

RISE = 2.0
"""Times that the off-gas must rise at the end to be a sign."""
LIKELY = 0.5
"""Share of the runs that must show a sign for it to be one to wait for."""
AFTER = 10.0 * MINUTE
"""Beyond a run's end at which a sign is told as after it."""
TELLABLE = 0.5 * MINUTE
"""A fresh bottle must stay clear for so long before the end to tell it (judgement)."""
FAINTEST = 1e-9
"""Share of the ozone that is taken to pass at the least."""


def signs(found: Simulated, end: Array, trap: float | None) -> Iterator[SignRow]:
    """Yield the signs; `end` is when each run is done, `trap` the liquid of the tail bottle."""
    off_gas = found.off_gas()
    before, after = (at_times(found.times, off_gas, at) for at in (0.5 * end, end + AFTER))
    turn = first_rise(found.times, _late(found, off_gas, end), 0.5 * (before + after))
    told = (after >= RISE * before) & np.isfinite(turn)
    when = np.where(np.isfinite(turn), turn, found.times[-1])
    tells = bool(told[0])
    shown = found.drawn.estimate
    yield SignRow(
        sign="off-gas",
        tells=tells,
        chance=float(np.mean(told)),
        at=shown(when) if tells else None,
        after_done=shown(when - end) if tells else None,
        gas_before=shown(before),
        gas_after=shown(after),
    )
    if trap is not None:
        yield _trap(found, end, trap, told, when)
    yield _blue(found, end)


def _late(found: Simulated, values: Array, end: Array) -> Array:
    """Return the values from half-way on, and nothing before it."""
    return np.where(found.times[:, None] >= 0.5 * end, values, -np.inf)


def _trap(found: Simulated, end: Array, volume: float, told: Any, when: Array) -> SignRow:
    """Return the tail bottle, freshly filled, before the end and behind it."""
    seen = absorption("STARCH_SEEN").value * found.drawn.within("iodine seen", "SEEN_SPREAD")
    passing = np.maximum(found.books.passing, FAINTEST) * found.gas.ozone
    sooner, later = (
        np.asarray(colouring_time(seen=seen, volume=volume, rate=rate))
        for rate in (at_times(found.times, passing, at) for at in (0.5 * end, end + AFTER))
    )
    shown = found.drawn.estimate
    told = told & (sooner >= TELLABLE)
    tells = bool(told[0])
    return SignRow(
        sign="tail bottle",
        tells=tells,
        chance=float(np.mean(told)),
        at=shown(when) if tells else None,
        colours_before=shown(sooner),
        colours_after=shown(later),
        volume=volume,
    )


def _blue(found: Simulated, end: Array) -> SignRow:
    drawn: Drawn = found.drawn
    seen = absorption("BLUE_SEEN").value * drawn.within("ozone seen", "SEEN_SPREAD")
    turn = first_rise(found.times, found.books.dissolved, seen)
    shows = turn <= end + AFTER
    tells = bool(np.mean(shows) >= LIKELY and shows[0])
    when = np.minimum(turn, end + AFTER)
    return SignRow(
        sign="blue",
        tells=tells,
        chance=float(np.mean(shows)),
        at=drawn.estimate(when) if tells else None,
        after_done=drawn.estimate(when - end) if tells else None,
        dissolved=drawn.estimate(at_times(found.times, found.books.dissolved, end + AFTER)),
    )
