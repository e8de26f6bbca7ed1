"""Temperatures of a tube under a pattern, for answers that rest on them."""

from __future__ import annotations

from typing import NamedTuple

from ozonewright.physics import Real
from ozonewright.physics.generator.duty import peak_rise
from ozonewright.physics.generator.falling import first_mean_rise, mean_rise, trough_rise
from ozonewright.questions.duty.bodies import Bodies


class Warmed(NamedTuple):
    """Of the settled pattern, in K."""

    trough: float
    mean: float
    """Over the on-times."""
    peak: float


def warmed(bodies: Bodies, ambient: float, on: float, off: float) -> Warmed:
    """Return how warm a tube is while a pattern repeats itself."""
    laws = (trough_rise, mean_rise, peak_rise)
    rises = (law(on_time=on, off_time=off, **_known(bodies)) for law in laws)
    return Warmed(*(ambient + float(rise) for rise in rises))


def warmed_once(bodies: Bodies, ambient: float, on: float) -> float:
    """Return how warm a tube is as a mean over one on-time from cold. [K]"""
    return ambient + float(first_mean_rise(on_time=on, **_known(bodies)))


def warmed_through(bodies: Bodies, ambient: float) -> float:
    """Return how warm a tube is that has run on. [K]"""
    return ambient + sum(one.value for one in bodies.rises)


def _known(bodies: Bodies) -> dict[str, list[Real]]:
    return {
        "rises": [one.value for one in bodies.rises],
        "time_constants": [one.value for one in bodies.time_constants],
    }
