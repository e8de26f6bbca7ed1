"""A tube on a timer: how warm it becomes, and which times keep it below a limit.

One body of one time constant, heated evenly while the discharge is on. All rises are shares of the
rise it would reach if it ran for ever.
"""

from __future__ import annotations

from math import e

import numpy as np

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


def longest_on_time(*, share: Real, off_time: Real, time_constant: Real) -> Real:
    """Longest on-time of a repeated pattern whose peak stays at a share of the continuous rise.

    Parameters
    ----------
    share : float
        Allowed rise over the continuous rise; from 1 on there is no longest time. [1]
    off_time : float
        Discharge off in each cycle. [s]
    time_constant : float
        Of the tube. [s]

    Returns
    -------
    on_time : float
        Infinite where the limit is never reached. [s]

    Raises
    ------
    NotApplicable
        A share of nought or less: the limit is not above the ambient.

    Valid
    -----
    One body, even heating.

    Source
    ------
    stout_undated, closed form of the steady peak, solved for the on-time

    Notes
    -----
    t_on = tau ln((1 - s exp(-t_off / tau)) / (1 - s))
    """
    if np.any(np.asarray(share) <= 0.0):
        raise NotApplicable("no rise is allowed", fix="The limit must be above the ambient.")
    cooled = share * e ** (-off_time / time_constant)
    left = np.maximum(1.0 - np.asarray(share), 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        found = np.where(left > 0.0, time_constant * np.log((1.0 - cooled) / left), np.inf)
    return found if found.ndim else float(found)


def shortest_off_time(*, share: Real, on_time: Real, time_constant: Real) -> Real:
    """Shortest off-time of a repeated pattern whose peak stays at a share of the continuous rise.

    Parameters
    ----------
    share : float
        Allowed rise over the continuous rise. [1]
    on_time : float
        Discharge on in each cycle. [s]
    time_constant : float
        Of the tube. [s]

    Returns
    -------
    off_time : float
        Nought where no rest is needed; infinite where one on-time from cold is already too long.
        [s]

    Raises
    ------
    NotApplicable
        A share of nought or less: the limit is not above the ambient.

    Valid
    -----
    One body, even heating.

    Source
    ------
    stout_undated, closed form of the steady peak, solved for the off-time

    Notes
    -----
    exp(-t_off / tau) = (1 - (1 - a) / s) / a with a = exp(-t_on / tau)
    """
    if np.any(np.asarray(share) <= 0.0):
        raise NotApplicable("no rise is allowed", fix="The limit must be above the ambient.")
    kept = e ** (-on_time / time_constant)
    carried = np.asarray((1.0 - (1.0 - kept) / share) / kept)
    with np.errstate(divide="ignore", invalid="ignore"):
        rest = np.where(carried > 0.0, -time_constant * np.log(carried), np.inf)
    found = np.where(np.asarray(share) >= 1.0, 0.0, np.maximum(rest, 0.0))
    return found if found.ndim else float(found)
