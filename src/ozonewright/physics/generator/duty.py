"""A tube on a timer: how warm it becomes, and which times keep it below a limit.

One body of one time constant, heated evenly while the discharge is on. All rises are shares of the
rise it would reach if it ran for ever.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import e

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import NotApplicable
from ozonewright.physics import Real


def warmed_share(*, on_time: Real, time_constant: Real) -> Real:
    """Share of the continuous rise that a cold tube reaches in one on-time.

    Parameters
    ----------
    on_time : float
        Discharge on, from cold. [s]
    time_constant : float
        Of the tube. [s]

    Returns
    -------
    share : float
        Rise over the continuous rise. [1]

    Raises
    ------
    None

    Valid
    -----
    One body, even heating, ambient that does not change.

    Source
    ------
    incropera_2007, lumped capacitance

    Notes
    -----
    s = 1 - exp(-t / tau)
    """
    return 1.0 - e ** (-on_time / time_constant)


def peak_share(*, on_time: Real, off_time: Real, time_constant: Real) -> Real:
    """Share of the continuous rise at the end of each on-time, once the pattern repeats itself.

    Parameters
    ----------
    on_time : float
        Discharge on in each cycle. [s]
    off_time : float
        Discharge off in each cycle. [s]
    time_constant : float
        Of the tube, the same while it cools. [s]

    Returns
    -------
    share : float
        Highest rise over the continuous rise. [1]

    Raises
    ------
    None

    Valid
    -----
    One body, even heating; after about four time constants of the pattern.

    Source
    ------
    stout_undated, closed form of the steady peak
    incropera_2007, lumped capacitance

    Notes
    -----
    s = (1 - exp(-t_on / tau)) / (1 - exp(-(t_on + t_off) / tau))
    """
    cycle = on_time + off_time
    return (1.0 - e ** (-on_time / time_constant)) / (1.0 - e ** (-cycle / time_constant))


def trough_share(*, on_time: Real, off_time: Real, time_constant: Real) -> Real:
    """Share of the continuous rise at the start of each on-time, once the pattern repeats itself.

    Parameters
    ----------
    on_time : float
        Discharge on in each cycle. [s]
    off_time : float
        Discharge off in each cycle. [s]
    time_constant : float
        Of the tube, the same while it cools. [s]

    Returns
    -------
    share : float
        Lowest rise over the continuous rise. [1]

    Raises
    ------
    None

    Valid
    -----
    One body, even heating; after about four time constants of the pattern.

    Source
    ------
    stout_undated, closed form of the steady valley
    incropera_2007, lumped capacitance

    Notes
    -----
    The peak, cooled for the off-time.
    """
    peak = peak_share(on_time=on_time, off_time=off_time, time_constant=time_constant)
    return peak * e ** (-off_time / time_constant)


def course_share(*, time: Real, on_time: Real, off_time: Real, time_constant: Real) -> Real:
    """Share of the continuous rise at a time after a cold tube was put on a timer.

    Parameters
    ----------
    time : float
        Since the discharge first came on. [s]
    on_time : float
        Discharge on in each cycle. [s]
    off_time : float
        Discharge off in each cycle. [s]
    time_constant : float
        Of the tube. [s]

    Returns
    -------
    share : float
        Rise over the continuous rise. [1]

    Raises
    ------
    None

    Valid
    -----
    One body, even heating, from cold.

    Source
    ------
    incropera_2007, lumped capacitance

    Notes
    -----
    The troughs approach the steady one as 1 - exp(-n (t_on + t_off) / tau).
    """
    pattern = {"on_time": on_time, "off_time": off_time, "time_constant": time_constant}
    within = np.mod(time, on_time + off_time)
    begun = time - within
    start = trough_share(**pattern) * (1.0 - e ** (-begun / time_constant))
    warming = 1.0 - (1.0 - start) * e ** (-np.minimum(within, on_time) / time_constant)
    found = np.asarray(warming * e ** (-np.maximum(within - on_time, 0.0) / time_constant))
    return found if found.ndim else float(found)


def peak_rise(
    *, on_time: Real, off_time: Real, rises: Sequence[Real], time_constants: Sequence[Real]
) -> Real:
    """Highest rise over the ambient of a repeated pattern, of bodies that warm side by side.

    Parameters
    ----------
    on_time : float
        Discharge on in each cycle. [s]
    off_time : float
        Discharge off in each cycle. [s]
    rises : sequence of float
        Continuous rise that each body brings. [K]
    time_constants : sequence of float
        Of each body. [s]

    Returns
    -------
    rise : float
        At the end of each on-time. [K]

    Raises
    ------
    None

    Valid
    -----
    The rises add up, as those of a tube in a box do; none is negative.

    Source
    ------
    stout_undated, sum over the terms of a thermal network
    """
    return sum(
        rise * peak_share(on_time=on_time, off_time=off_time, time_constant=time_constant)
        for rise, time_constant in zip(rises, time_constants, strict=True)
    )


def longest_on_time(
    *, allowed: Real, off_time: Real, rises: Sequence[Real], time_constants: Sequence[Real]
) -> Real:
    """Longest on-time of a repeated pattern whose peak stays at an allowed rise.

    Parameters
    ----------
    allowed : float
        Limit less ambient. [K]
    off_time : float
        Discharge off in each cycle. [s]
    rises : sequence of float
        Continuous rise that each body brings. [K]
    time_constants : sequence of float
        Of each body. [s]

    Returns
    -------
    on_time : float
        Infinite where the limit is never reached. [s]

    Raises
    ------
    NotApplicable
        Nothing is allowed: the limit is not above the ambient.

    Valid
    -----
    From a millionth of the shortest to ten thousand times the longest time constant.

    Source
    ------
    stout_undated, closed form of the steady peak, halved until it fits

    Notes
    -----
    Of one body: tau ln((1 - s exp(-t_off / tau)) / (1 - s)) with s = allowed / rise.
    """
    _refuse_none(allowed)

    def over(on_time: Real) -> Real:
        rise = peak_rise(
            on_time=on_time, off_time=off_time, rises=rises, time_constants=time_constants
        )
        return np.greater(rise, allowed)

    shape = np.broadcast(allowed, off_time, *rises, *time_constants).shape
    found = _halved(over, time_constants, shape)
    return _plain(np.where(np.greater_equal(allowed, sum(rises)), np.inf, found))


def shortest_off_time(
    *, allowed: Real, on_time: Real, rises: Sequence[Real], time_constants: Sequence[Real]
) -> Real:
    """Shortest off-time of a repeated pattern whose peak stays at an allowed rise.

    Parameters
    ----------
    allowed : float
        Limit less ambient. [K]
    on_time : float
        Discharge on in each cycle. [s]
    rises : sequence of float
        Continuous rise that each body brings. [K]
    time_constants : sequence of float
        Of each body. [s]

    Returns
    -------
    off_time : float
        Nought where no rest is needed; infinite where one on-time from cold is already too long.
        [s]

    Raises
    ------
    NotApplicable
        Nothing is allowed: the limit is not above the ambient.

    Valid
    -----
    From a millionth of the shortest to ten thousand times the longest time constant.

    Source
    ------
    stout_undated, closed form of the steady peak, halved until it fits

    Notes
    -----
    Of one body: exp(-t_off / tau) = (1 - (1 - a) / s) / a with a = exp(-t_on / tau).
    """
    _refuse_none(allowed)

    def cool(off_time: Real) -> Real:
        rise = peak_rise(
            on_time=on_time, off_time=off_time, rises=rises, time_constants=time_constants
        )
        return np.less_equal(rise, allowed)

    shape = np.broadcast(allowed, on_time, *rises, *time_constants).shape
    found = _halved(cool, time_constants, shape)
    single = sum(
        rise * warmed_share(on_time=on_time, time_constant=time_constant)
        for rise, time_constant in zip(rises, time_constants, strict=True)
    )
    found = np.where(np.greater_equal(single, allowed), np.inf, found)
    return _plain(np.where(np.greater_equal(allowed, sum(rises)), 0.0, found))


STEPS = 60
"""Of halving a range of ten powers of ten: more than a float can tell apart."""


def _halved(
    beyond: Callable[[Real], Real], time_constants: Sequence[Real], shape: tuple[int, ...]
) -> NDArray[np.float64]:
    """Return the time at which a monotonic condition turns true."""
    each = np.stack([np.broadcast_to(np.log(one), shape) for one in time_constants])
    low, high = each.min(axis=0) + np.log(1e-6), each.max(axis=0) + np.log(1e4)
    for _ in range(STEPS):
        middle = 0.5 * (low + high)
        true = beyond(np.exp(middle))
        low, high = np.where(true, low, middle), np.where(true, middle, high)
    found: NDArray[np.float64] = np.exp(0.5 * (low + high))
    return found


def _refuse_none(allowed: Real) -> None:
    if np.any(np.asarray(allowed) <= 0.0):
        raise NotApplicable("no rise is allowed", fix="The limit must be above the ambient.")


def _plain(found: NDArray[np.float64]) -> Real:
    return found if found.ndim else float(found)
