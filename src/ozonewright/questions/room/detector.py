"""From a detector's readings to what the room takes away and what leaks into it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf, isfinite, log, sqrt

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import MissingValue
from ozonewright.physics.hazards.detector import release_response
from ozonewright.questions.room.air import best, per_fraction
from ozonewright.records.detector import DetectorLog
from ozonewright.records.room import Room
from ozonewright.results import Note, Result, fact, quantity
from ozonewright.uncertain import Estimate, coverage_factor
from ozonewright.units import Kind, size

HOUR = size(Kind.TIME, "h")
SLOWEST, FASTEST = 0.05 / HOUR, 200.0 / HOUR
"""Loss rates between which is searched: a sealed empty hall, a fume hood."""
GRID, SECTIONS = 200, 60
GOLDEN = (sqrt(5.0) - 1.0) / 2.0
STEP = 1e-4
"""Relative step of the derivatives."""
DETERMINED = 0.5
"""Relative standard uncertainty of the loss above which it is called not determined."""


@dataclass(frozen=True, kw_only=True)
class DetectorAnswer(Result):
    """Loss, removal and leak of a room as its detector tells them."""

    room: str | None = fact("room")
    readings: int = fact("readings", 0)
    determined: bool = fact("determined", False)
    loss: Estimate | None = quantity(Kind.RATE, "1/h", "loss of ozone, all ways", stem="loss")
    removal: Estimate | None = quantity(
        Kind.RATE, "1/h", "removal, air changes taken off", stem="removal"
    )
    leak: Estimate | None = quantity(
        Kind.MASS_RATE, "mg/h", "ozone let in while it was on", stem="leak"
    )
    first: Estimate | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "ozone at the first reading", stem="first"
    )
    scatter: float | None = quantity(
        Kind.MOLE_FRACTION, "ppm", "scatter of the readings", stem="scatter", exact=True
    )


@dataclass(frozen=True)
class Fit:
    """The readings as arrays, and how the model answers them."""

    time: NDArray[np.float64]
    value: NDArray[np.float64]
    """Mass per volume."""
    intervals: tuple[tuple[float, float], ...]
    volume: float

    def design(self, loss: float) -> NDArray[np.float64]:
        """Return what each reading owes to the first concentration and to a unit of release."""
        columns = [np.exp(-loss * (self.time - self.time[0]))]
        if self.intervals:
            columns.append(self._response(loss))
        return np.stack(columns, axis=1)

    def _response(self, loss: float) -> NDArray[np.float64]:
        """Return the answer to a unit of release since the first reading."""
        total = np.zeros_like(self.time)
        for begin, end in self.intervals:
            total = total + release_response(
                time=self.time, begin=max(begin, self.time[0]), end=end,
                volume=self.volume, loss=loss,
            )  # fmt: skip
        return total

    def amounts(self, loss: float) -> NDArray[np.float64]:
        """Return first concentration and release that answer the readings best, none negative."""
        design = self.design(loss)
        found: NDArray[np.float64] = np.linalg.lstsq(design, self.value, rcond=None)[0].astype(
            np.float64
        )
        if found.min() >= 0.0:
            return found
        kept = np.zeros(len(found))
        columns = [np.maximum(self.value @ one / (one @ one), 0.0) for one in design.T]
        misses = [
            float(np.sum((self.value - one * c) ** 2))
            for one, c in zip(design.T, columns, strict=True)
        ]
        place = int(np.argmin(misses))
        kept[place] = columns[place]
        return kept

    def miss(self, loss: float) -> float:
        """Return the sum of squares that is left."""
        return float(np.sum((self.value - self.design(loss) @ self.amounts(loss)) ** 2))


def detector_answer(room: Room, log_: DetectorLog) -> DetectorAnswer:
    """Return what a detector's readings say of a room.

    Raises
    ------
    MissingValue
        Too few readings for what is asked of them.
    """
    fit = _fit(room, log_)
    wanted = len(fit.intervals[:1]) + 2
    if len(fit.time) < wanted + 2:
        raise MissingValue(
            f"{len(fit.time)} readings are too few to tell a room's loss",
            where="detector",
            fix=f"Log at least {wanted + 2}, a minute apart, while it rises or falls.",
        )
    loss = _best_loss(fit)
    amounts = fit.amounts(loss)
    freedom = len(fit.time) - wanted
    scatter = sqrt(fit.miss(loss) / freedom)
    spread = _spread(fit, loss, amounts, max(scatter, _digits(log_, room)))
    determined = bool(
        SLOWEST * 1.01 < loss < FASTEST * 0.99
        and isfinite(spread[0])
        and spread[0] < DETERMINED * loss
    )
    return _answer(room, fit, (loss, *amounts), spread, (scatter, freedom, determined), log_)


def _fit(room: Room, log_: DetectorLog) -> Fit:
    unit = per_fraction(room)
    if not log_.readings:
        raise MissingValue(
            "no detector reading is logged for this room",
            where="detector",
            fix='Log them: ozonewright log --of ROOM "detector" --value "0.08 ppm".',
        )
    origin = log_.readings[0].when
    time = [(one.when - origin).total_seconds() for one in log_.readings]
    value = [
        one.value.value * (1.0 if one.value.kind is Kind.MASS_CONCENTRATION else unit)
        for one in log_.readings
    ]
    spans = [
        (
            (begin - origin).total_seconds(),
            (end - origin).total_seconds() if end is not None else inf,
        )
        for begin, end in log_.releases
    ]
    within = tuple(span for span in spans if span[1] > 0.0 and span[0] < time[-1])
    if not log_.marked:
        within = ((-inf, inf),)
    return Fit(np.array(time), np.array(value), within, room.volume.value)


def _digits(log_: DetectorLog, room: Room) -> float:
    """Return the uncertainty of a reading as typed."""
    unit = per_fraction(room)
    spreads = [
        one.value.u * (1.0 if one.value.kind is Kind.MASS_CONCENTRATION else unit)
        for one in log_.readings
    ]
    return float(np.median(spreads))


def _best_loss(fit: Fit) -> float:
    """Return the loss that leaves least: a grid in its logarithm, then golden sections."""
    grid = np.geomspace(SLOWEST, FASTEST, GRID)
    place = int(np.argmin([fit.miss(float(loss)) for loss in grid]))
    low = log(grid[max(place - 1, 0)])
    high = log(grid[min(place + 1, GRID - 1)])
    for _ in range(SECTIONS):
        third = GOLDEN * (high - low)
        left, right = high - third, low + third
        if fit.miss(float(np.exp(left))) < fit.miss(float(np.exp(right))):
            high = right
        else:
            low = left
    return float(np.exp((low + high) / 2.0))


def _spread(
    fit: Fit, loss: float, amounts: NDArray[np.float64], scatter: float
) -> NDArray[np.float64]:
    """Return the standard uncertainty of loss and amounts: the curvature at the best fit."""
    slope = (
        fit.design(loss * (1.0 + STEP)) @ amounts - fit.design(loss * (1.0 - STEP)) @ amounts
    ) / (2.0 * STEP * loss)
    jacobian = np.column_stack([slope, fit.design(loss)])
    scale = np.linalg.norm(jacobian, axis=0)
    scale[scale == 0.0] = 1.0
    normal = (jacobian / scale).T @ (jacobian / scale)
    if np.linalg.cond(normal) > 1e12:
        return np.full(jacobian.shape[1], inf)
    return np.asarray(scatter * np.sqrt(np.diag(np.linalg.inv(normal))) / scale)


def _answer(
    room: Room,
    fit: Fit,
    found: tuple[float, ...],
    spread: NDArray[np.float64],
    rest: tuple[float, int, bool],
    log_: DetectorLog,
) -> DetectorAnswer:
    scatter, freedom, determined = rest
    unit = per_fraction(room)
    loss, first = found[0], found[1]
    leak = found[2] if len(found) > 2 else None
    fresh = float(best(room).fresh)
    changes = room.air_changes.u if room.air_changes else 0.0
    known = room.air_changes is not None or room.fan is not None

    def estimate(value: float, u: float) -> Estimate | None:
        return _estimate(value, u, freedom) if determined else None

    return DetectorAnswer(
        room=room.label,
        readings=len(fit.time),
        determined=determined,
        loss=estimate(loss, float(spread[0])),
        removal=estimate(loss - fresh, float(np.hypot(spread[0], changes))) if known else None,
        leak=None if leak is None else estimate(leak, float(spread[2])),
        first=estimate(first / unit, float(spread[1]) / unit),
        scatter=scatter / unit,
        notes=tuple(_notes(determined, known, log_)),
        next=() if determined else (Note("room-detector-next", "advice"),),
        unknowns=() if known else ("room.air_changes",),
        sources=("lee_1999",),
        methods=("least squares on a well-mixed box",),
    )


def _estimate(value: float, u: float, dof: float) -> Estimate:
    k = coverage_factor(0.95, dof)
    return Estimate(
        value=value,
        u=u,
        dof=dof,
        interval=(value - k * u, value + k * u),
        k=k,
        method="first order",
        budget=(),
    )


def _notes(determined: bool, known: bool, log_: DetectorLog) -> Iterator[Note]:
    if not determined:
        yield Note("room-detector-undetermined", "wrong")
    if not known:
        yield Note("room-detector-no-air")
    if not log_.marked:
        yield Note("room-detector-unmarked")
    yield Note("room-detector-place", "advice")
