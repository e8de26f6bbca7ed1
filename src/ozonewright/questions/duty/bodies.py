"""What warms: bodies with their rises and time constants, typed or fitted to a log."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from ozonewright.physics.generator.warming import Warming, fit_warming
from ozonewright.records.temperature_log import TemperatureLog
from ozonewright.results import Note
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

BETTER = 15.0
"""Times that a second body must lower the variance left, or it is not believed.

An F of 15 on two and ten degrees of freedom has one chance in a thousand.
"""
APART = 2.5
"""Ratio of time constants below which two bodies can't be told apart (judgement, no source)."""
BENT = 2.0
"""Time constants that a log should hold for its steady temperature to be told."""


Pair = frozenset[str] | tuple[str, str]
"""Two inputs by their names."""


@dataclass(frozen=True, slots=True)
class Bodies:
    """Rises and time constants side by side, and how they hang together."""

    time_constants: tuple[Measured, ...]
    rises: tuple[Measured, ...] = ()
    """Empty where the rise is not known; then there is one body."""
    ambient: Measured | None = None
    correlation: Mapping[Pair, float] = field(default_factory=dict)
    fitted: Warming | None = None
    log: TemperatureLog | None = None
    """The readings behind `fitted`."""
    notes: tuple[Note, ...] = ()


def typed_body(time_constant: Measured, rise: Measured | None, ambient: Measured | None) -> Bodies:
    """Return the one body that a person typed."""
    return Bodies((time_constant,), () if rise is None else (rise,), ambient)


def fitted_bodies(log: TemperatureLog) -> Bodies:
    """Return one body, or two where the log can tell them apart."""
    given = {
        "times": np.array(log.times),
        "temperatures": np.array(log.temperatures),
        "on": np.array(log.on, dtype=float),
    }
    one = fit_warming(**given, bodies=1)
    two = None
    if len(log.times) > SEVERAL:
        two = fit_warming(**given, bodies=2)
    fit = two if two is not None and _believed(one, two) else one
    names = [
        "ambient",
        *(f"rise {k}" for k in range(1, len(fit.rises) + 1)),
        *(f"time constant {k}" for k in range(1, len(fit.rises) + 1)),
    ]
    u = np.sqrt(np.diag(fit.covariance))
    values = (fit.ambient, *fit.rises, *fit.time_constants)
    kinds = (
        Kind.TEMPERATURE,
        *(Kind.TEMPERATURE_DIFFERENCE for _ in fit.rises),
        *(Kind.TIME for _ in fit.rises),
    )
    inputs = [
        Measured(value, float(one_u), name, kind, dof=fit.dof, basis="fitted")
        for value, one_u, name, kind in zip(values, u, names, kinds, strict=True)
    ]
    count = len(fit.rises)
    return Bodies(
        time_constants=tuple(inputs[1 + count :]),
        rises=tuple(inputs[1 : 1 + count]),
        ambient=inputs[0],
        correlation=_correlation(fit, names, u),
        fitted=fit,
        log=log,
        notes=tuple(_notes(log, fit)),
    )


def elsewhere(bodies: Bodies, ambient: Measured) -> Bodies:
    """Return fitted bodies in another ambient than that of their log."""
    tied = {pair: value for pair, value in bodies.correlation.items() if "ambient" not in pair}
    return replace(bodies, ambient=ambient, correlation=tied)


SEVERAL = 14
"""Readings from which a second body is looked for."""


def _believed(one: Warming, two: Warming) -> bool:
    better = (one.squares - two.squares) / 2.0 / (two.squares / two.dof)
    apart = two.time_constants[1] / two.time_constants[0]
    return better > BETTER and min(two.rises) > 0.0 and apart > APART


def _correlation(fit: Warming, names: list[str], u: NDArray[np.float64]) -> dict[Pair, float]:
    return {
        (names[i], names[j]): float(fit.covariance[i, j] / (u[i] * u[j]))
        for i in range(len(names))
        for j in range(i + 1, len(names))
        if u[i] > 0.0 and u[j] > 0.0
    }


def _notes(log: TemperatureLog, fit: Warming) -> Iterator[Note]:
    yield Note("duty-started-cold", "advice", {"first": log.temperatures[0]})
    yield Note("duty-thermometer", "doubt")
    if not log.switched:
        yield Note("duty-on-throughout", "advice")
    gaps = np.diff(log.times)
    if gaps.max() > GAP * np.median(gaps):
        yield Note("duty-gap", "doubt", {"gap": float(gaps.max())})
    longest = max(fit.time_constants)
    if log.times[-1] < BENT * longest:
        yield Note("duty-log-short", "doubt", {"span": log.times[-1], "time_constant": longest})


GAP = 5.0
"""Usual distances between readings beyond which a gap is told."""
