"""When draws reach something, and what they are at a time of their own."""

from __future__ import annotations

from typing import Any

import numpy as np

from ozonewright.physics.liquid.batch import Array


def first_rise(times: Array, values: Array, level: Any) -> Array:
    """Return when each draw first rises to a level, straight between times; else infinite."""
    reached = values >= level
    place = np.maximum(np.argmax(reached, axis=0), 1)
    draw = np.arange(values.shape[1])
    low, high = values[place - 1, draw], values[place, draw]
    rise = np.where(np.isfinite(low) & (high > low), high - low, np.inf)
    share = np.where(np.isfinite(rise), np.clip((level - low) / rise, 0.0, 1.0), 0.0)
    found = times[place - 1] + share * (times[place] - times[place - 1])
    return np.where(reached.any(axis=0), found, np.inf)


def at_times(times: Array, values: Array, when: Array) -> Array:
    """Return the value of each draw at a time of its own."""
    return np.array([np.interp(one, times, values[:, place]) for place, one in enumerate(when)])
