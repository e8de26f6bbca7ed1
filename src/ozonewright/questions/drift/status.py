"""Why a cause fits or doesn't: the sign and the size of the trend that it can make."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ozonewright.questions.drift.cause import Cause
from ozonewright.questions.drift.model import predicted
from ozonewright.questions.drift.models import Model
from ozonewright.questions.drift.posterior import SHIFT
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
) -> Reason:
    """Return why a cause can't make the trend, or "" where it can or makes none of any size."""
    if trend is None or not trend.seen:
        return ""
    if cause.name in ("steady", "misread", "scatter", "other"):
        return ""
    drawn = [_drawn(model, setup, trend, rate_z) for model in models]
    found = np.concatenate([made for made, _ in drawn])
    if np.quantile(np.abs(found), NEARLY_SURE) < trend.u:
        shift = np.concatenate([moved for _, moved in drawn])
        return "size" if np.quantile(shift, NEARLY_SURE) < SHIFT else ""
    along = found * np.sign(trend.value)
    if np.quantile(along, NEARLY_SURE) >= abs(trend.value) - NO_TREND * trend.u:
        return ""
    return "sign" if np.quantile(along, NEARLY_SURE) <= trend.u else "size"


def _drawn(model: Model, setup: Setup, trend: Trend, rate_z: float) -> tuple[Array, Array]:
    """Return trends that draws from what was thought beforehand make at the output found.

    The second is how far they move the run they move most, as a share of it.
    """
    stream = np.random.default_rng(0)
    z = stream.standard_normal((DRAWS, len(model.parameters)))
    z[:, 0] = rate_z
    theta = model.theta(z)
    total = predicted(setup, theta).total
    bare = predicted(setup, model.without(theta, model.causes[0])).total
    made = setup.discharge > 0.0
    shift = np.abs(total[:, made] / bare[:, made] - 1.0).max(axis=1)
    return trend.of(total, setup.on_time), np.asarray(shift)


def status(chance: float, reason: Reason, misfit: float, count: int) -> tuple[Status, Reason]:
    """Return the status of a cause and why."""
    if chance < UNLIKELY and reason == "sign":
        return "wrong sign", "sign"
    if chance < UNLIKELY and reason == "size":
        return "too small", "size"
    if chance < RULED_OUT:
        return "ruled out", "shape" if misfit > MISFIT * count else "size"
    return "fits", ""
