"""How long the tube may run: longest on-times, and patterns below the limit."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil, isfinite
from typing import Any

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.generator.duty import longest_on_time, peak_rise, shortest_off_time
from ozonewright.questions.duty.output import output_of_pattern
from ozonewright.questions.duty.result import Pattern
from ozonewright.questions.duty.timer import MINUTE, Timer, series
from ozonewright.uncertain import monte_carlo

TRIED = (1.0, 2.0, 3.0, 5.0, 10.0, 15.0, 20.0, 30.0)
"""On-times in minutes for which the shortest rest is told."""
LONGEST_REST = 8.0
"""Rests beyond so many time constants are not offered: the tube is cold long before."""
DRAWS = 20_000
ODD = 0.025
"""Chance left to the tube of passing the limit in a planned pattern."""
FOR_EVER = 1e9
"""Seconds."""


def times(timer: Timer) -> dict[str, Any]:
    """Return the longest on-times, plain and to plan with."""
    if not timer.heated:
        return {}

    def longest(off_time: Any = None, **v: Any) -> Any:
        return longest_on_time(
            allowed=_allowed(v),
            off_time=v["off"] if off_time is None else off_time,
            rises=series(v, "rise"),
            time_constants=series(v, "tau"),
        )

    best = {name: value.value for name, value in timer.inputs().items()}
    plain, first = longest(**best), longest(off_time=FOR_EVER, **best)
    safe = _quantile(timer, longest, ODD)
    return {
        "longest_on": plain if isfinite(plain) else None,
        "safe_on": safe if safe < FOR_EVER else None,
        "first_on": first if isfinite(first) else None,
        "limit_reached": isfinite(plain),
    }


def _quantile(timer: Timer, time: Any, share: float) -> float:
    """Return a quantile of a time over the draws of what it rests on."""
    inputs = {
        name: value
        for name, value in timer.inputs().items()
        if name in ("off", "ambient", "limit") or name.startswith(("tau_", "rise_"))
    }

    def within(**v: Any) -> Real:
        found: Real = np.minimum(time(**_possible(v)), FOR_EVER)
        return found

    drawn = monte_carlo(
        within,
        inputs,
        draws=DRAWS,
        correlation=timer.bodies.correlation,
    )
    return float(np.quantile(drawn.draws, share))


def _possible(v: Mapping[str, Any]) -> dict[str, Any]:
    """Return draws with rises and time constants kept above nought."""
    return {
        name: np.maximum(value, LEAST) if name.startswith(("tau_", "rise_")) else value
        for name, value in v.items()
    }


LEAST = 1e-3
"""Kelvin and seconds: a draw of a poor fit may fall below nought."""


def patterns(timer: Timer) -> tuple[Pattern, ...]:
    """Return the shortest rest for each usual on-time, if any rest is needed.

    Of those that deliver most, the one with the fewest starts is marked.
    """
    if not timer.heated:
        return ()
    bodies = timer.bodies
    assert bodies.ambient is not None
    rises = [one.value for one in bodies.rises]
    taus = [one.value for one in bodies.time_constants]
    rows = []
    for minutes in TRIED:
        on = minutes * MINUTE
        rest = _safe_rest(timer, on)
        if rest > LONGEST_REST * max(taus):
            continue
        off = ceil(rest / MINUTE - 1e-9) * MINUTE
        peak = peak_rise(on_time=on, off_time=off, rises=rises, time_constants=taus)
        rows.append((on, off, float(bodies.ambient.value + (peak if off else sum(rises)))))
    if not any(off for _, off, _ in rows):
        return ()
    made = [output_of_pattern(timer, on, off) for on, off, _ in rows]
    most = max(range(len(rows)), key=lambda row: (made[row], rows[row][0]))
    return tuple(
        Pattern(
            on=on,
            off=off,
            peak_temperature=peak,
            ozone_rate=made[row] if timer.rate else None,
            starts_per_hour=1.0 / (on + off) if off else 0.0,
            best=row == most,
        )
        for row, (on, off, peak) in enumerate(rows)
    )


def _safe_rest(timer: Timer, on: float) -> float:
    """Return the rest that suffices for all but one in forty draws; infinite if none does."""

    def rest(**v: Any) -> Any:
        return shortest_off_time(
            allowed=_allowed(v),
            on_time=on,
            rises=series(v, "rise"),
            time_constants=series(v, "tau"),
        )

    return _quantile(timer, rest, 1.0 - ODD)


def _allowed(v: Mapping[str, Any]) -> Any:
    """Return the allowed rise, hardly any where a draw allows none."""
    return np.maximum(v["limit"] - v["ambient"], LEAST)
