"""Why a cause fits or doesn't: the sign and the size of the trend that it can make."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ozonewright.questions.drift.cause import Cause
from ozonewright.questions.drift.model import predicted
from ozonewright.questions.drift.models import Model
from ozonewright.questions.drift.series import Array, Readings, Setup

Status = Literal["fits", "too small", "wrong sign", "ruled out", "can't be told"]
Reason = Literal["", "sign", "size", "shape"]
DRAWS = 512
NEARLY_SURE = 0.975
NO_TREND = 2.0
"""A trend of fewer standard uncertainties is none."""
UNLIKELY = 0.01
RULED_OUT = 0.001
MISFIT = 4.0
"""Sum of squares over variance per reading, above which no size of a cause fits."""


@dataclass(frozen=True, slots=True)
class Trend:
    """Logarithm of the rate of the shortest runs over that of the longest."""

    short: Array
    """Which runs; weights that sum to 1."""
    long: Array
    value: float
    u: float

    @property
    def seen(self) -> bool:
        """Whether there is one."""
        return abs(self.value) > NO_TREND * self.u

    def of(self, total: Array, on_time: Array) -> Array:
        """Return the trend of predicted readings; shape (draws,)."""
        rate = np.maximum(total, 1e-30) / on_time
        return np.asarray(np.log(rate @ self.short) - np.log(rate @ self.long))


def trend_of(setup: Setup, readings: Readings) -> Trend | None:
    """Return the trend of the series, or None where all on-times are alike."""
    made = setup.discharge > 0.0
    times = setup.on_time[made]
    if times.max() <= times.min() * (1.0 + 1e-9):
        return None
    short = made & (setup.on_time <= times.min() * (1.0 + 1e-9))
    long = made & (setup.on_time >= times.max() * (1.0 - 1e-9))
    a, b = short / short.sum(), long / long.sum()
    total = np.maximum(readings.total, 1e-30)
    relative = readings.u_main / total
    u = ((a * relative) ** 2).sum() + ((b * relative) ** 2).sum()
    trend = Trend(a, b, 0.0, float(u**0.5))
    return Trend(a, b, float(trend.of(total[None, :], setup.on_time)[0]), trend.u)


def reason_by_trend(
    cause: Cause, models: Sequence[Model], setup: Setup, trend: Trend | None, rate_z: float
) -> Reason | None:
    """Return why a cause can't make the trend, "" where it can, None where it makes none at all."""
    if trend is None or not trend.seen:
        return ""
    found = np.concatenate([_trends(model, setup, trend, rate_z) for model in models])
    if cause.name in ("steady", "misread", "scatter", "other"):
        return ""
    if np.quantile(np.abs(found), NEARLY_SURE) < trend.u:
        return None
    along = found * np.sign(trend.value)
    if np.quantile(along, NEARLY_SURE) >= abs(trend.value) - NO_TREND * trend.u:
        return ""
    return "sign" if np.quantile(along, NEARLY_SURE) <= trend.u else "size"


def _trends(model: Model, setup: Setup, trend: Trend, rate_z: float) -> Array:
    """Return the trend that draws from what was thought beforehand make at the output found."""
    stream = np.random.default_rng(0)
    z = stream.standard_normal((DRAWS, len(model.parameters)))
    z[:, 0] = rate_z
    return trend.of(predicted(setup, model.theta(z)).total, setup.on_time)


def status(
    chance: float, reason: Reason | None, misfit: float, count: int
) -> tuple[Status, Reason]:
    """Return the status of a cause and why."""
    if reason is None:
        return "can't be told", ""
    if chance < UNLIKELY and reason == "sign":
        return "wrong sign", "sign"
    if chance < UNLIKELY and reason == "size":
        return "too small", "size"
    if chance < RULED_OUT:
        return "ruled out", "shape" if misfit > MISFIT * count else "size"
    return "fits", ""
