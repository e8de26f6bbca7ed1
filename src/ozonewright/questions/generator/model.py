"""The discharge model at many points for many draws of what is unknown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ozonewright.physics.generator import discharge as physics
from ozonewright.physics.generator.heat import gas_temperature
from ozonewright.questions.generator.lumped import Array, Lumped
from ozonewright.questions.generator.points import Point

CHUNK = 1 << 13
"""Evaluations at once: small enough for the processor's cache."""
ROWS = ("flow", "oxygen", "nitrogen", "inlet", "pressure", "cooler", "series", "parallel")


@dataclass(frozen=True, slots=True)
class Modelled:
    """Shape (draws, points) each."""

    rate: Array
    """Ozone. [mol/s]"""
    nox: Array
    """Nitrogen oxides over ozone. [1]"""
    temperature: Array
    """Of the gas. [K]"""
    power: Array
    """On the basis of the efficiency, of all tubes. [W]"""


def modelled(lumped: Lumped, deviations: Array, points: Sequence[Point]) -> Modelled:
    """Return what the model makes at each point with each draw."""
    found = Modelled(*(np.empty((len(deviations), len(points))) for _ in range(4)))
    for columns in _alike(points):
        chosen = [points[column] for column in columns]
        step = max(CHUNK // len(chosen), 1)
        for start in range(0, len(deviations), step):
            rows = slice(start, start + step)
            part = _evaluated(lumped, lumped.values(deviations[rows]), chosen)
            for name in ("rate", "nox", "temperature", "power"):
                getattr(found, name)[rows, columns] = getattr(part, name)
    return found


def _alike(points: Sequence[Point]) -> Iterator[list[int]]:
    """Yield the places of points that need the same part of the scheme: it is quicker so."""
    groups: dict[tuple[bool, bool], list[int]] = {}
    for place, point in enumerate(points):
        groups.setdefault((point.nitrogen > 0.0, point.water != 0.0), []).append(place)
    yield from groups.values()


def _evaluated(lumped: Lumped, unknown: Mapping[str, Array], points: Sequence[Point]) -> Modelled:
    flow, oxygen, nitrogen, inlet, pressure, cooler, series, parallel = (
        np.array([getattr(point, name) for point in points]) for name in ROWS
    )
    power = _power(lumped, unknown, points)
    wall = _wall(lumped, unknown, points, power, inlet) - cooler
    each = flow / parallel
    temperature = gas_temperature(
        power=power, flow=each, wall=wall, inlet=inlet, resistance=unknown["warmth"]
    )
    made = physics.discharge(
        power=power * series,
        flow=each,
        oxygen=oxygen,
        nitrogen=nitrogen,
        water=_water(unknown, points),
        temperature=temperature,
        pressure=pressure,
        volume=unknown["gap"] * series,
        lumped=physics.Lumped(
            *(unknown[name] for name in ("efficiency", "loss", "nitrogen", "nox"))
        ),
    )
    tubes = series * parallel
    return Modelled(
        np.asarray(made.ozone * flow),
        np.asarray(made.nox / made.ozone),
        np.asarray(temperature),
        power * tubes,
    )


def _power(lumped: Lumped, unknown: Mapping[str, Array], points: Sequence[Point]) -> Array:
    """Return the power of one tube on the basis of the efficiency."""
    columns = []
    for point in points:
        if point.power is None:
            columns.append(unknown["power"])
        elif point.power_at != lumped.basis:
            columns.append(point.power / unknown["supply"])
        else:
            columns.append(np.full_like(unknown["efficiency"], point.power))
    return np.hstack(columns)


def _wall(
    lumped: Lumped,
    unknown: Mapping[str, Array],
    points: Sequence[Point],
    power: Array,
    inlet: Array,
) -> Array:
    usual = lumped.usual_power
    rise = unknown["wall_rise"] * (power / usual if usual else 1.0)
    read = np.array([np.nan if point.wall is None else point.wall for point in points])
    return np.where(np.isnan(read), inlet + rise, read)


def _water(unknown: Mapping[str, Array], points: Sequence[Point]) -> Array:
    read = np.array([np.nan if point.water is None else point.water for point in points])
    return np.where(np.isnan(read), unknown["damp"], read) if np.isnan(read).any() else read
