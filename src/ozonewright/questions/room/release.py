"""The ways in which ozone gets out, from an output and shares of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ozonewright.physics.hazards.release import release_by_slip
from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class Release:
    """Ozone let into a room: a steady rate, or a mass at once."""

    name: str
    rate: Measured | None = None
    """In kg/s."""
    mass: Measured | None = None
    """In kg."""


def releases(
    *,
    release: Measured | None = None,
    output: Measured | None = None,
    slip: Measured | None = None,
    destroyed: Measured | None = None,
    leak: Measured | None = None,
    purge: Measured | None = None,
) -> Iterator[Release]:
    """Yield every release that follows from what is stated, the one asked for first.

    A share without its own name keeps the uncertainty of the output: u of the share is small
    beside what a room does.
    """
    if release is not None:
        yield Release("release", rate=release)
    if output is not None:
        yield Release("hose off", rate=output)
        if slip is not None:
            yield Release("nothing after the flask", rate=_part(output, slip.value, 0.0))
            if destroyed is not None:
                rate = _part(output, slip.value, destroyed.value)
                yield Release("slip past the tail", rate=rate)
        if leak is not None:
            yield Release("leak", rate=_part(output, leak.value, 0.0))
    if purge is not None:
        yield Release("purge", mass=purge)


def _part(output: Measured, slip: float, destroyed: float) -> Measured:
    """Return the part of the output that gets out."""
    value, u = (
        float(release_by_slip(output=each, uptake=1.0 - slip, destroyed=destroyed))
        for each in (output.value, output.u)
    )
    return replace(output, value=value, u=u)
