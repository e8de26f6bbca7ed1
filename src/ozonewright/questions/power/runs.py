"""The power of a setting from what its runs say."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, hypot

from ozonewright.uncertain import Measured, repeats
from ozonewright.units import Kind


def power_of_runs(powers: Sequence[Measured], name: str) -> Measured | None:
    """Return the mean of readings of one meter: its own doubt is shared by all of them."""
    if not powers:
        return None
    meter = fsum(one.u for one in powers) / len(powers)
    basis = powers[0].basis if len({one.basis for one in powers}) == 1 else "stated"
    if len(powers) == 1:
        return Measured(powers[0].value, meter, name, Kind.POWER, basis=basis)
    mean = repeats([one.value for one in powers], name, Kind.POWER)
    return Measured(mean.value, hypot(mean.u, meter), name, Kind.POWER, basis=basis)
