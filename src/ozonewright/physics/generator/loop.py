"""Charge against voltage of a discharge tube, recorded over time: cycles and their energy."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ozonewright.physics import Real

Array = NDArray[np.float64]
HYSTERESIS = 0.25
"""Share of half the swing that a cycle must pass on both sides, so that noise starts none."""
OUTER = 0.005
"""Share of the samples at either end that the swing leaves out: spikes."""


def rising_crossings(*, time: Array, voltage: Array) -> Array:
    """Times at which a recorded voltage passes the middle of its swing upward, once a cycle.

    Parameters
    ----------
    time : array
        Rising. [s]
    voltage : array
        At these times. [V]

    Returns
    -------
    times : array
        Between samples by a straight line; shape (crossings,). [s]

    Raises
    ------
    None

    Valid
    -----
    A wave that passes the middle once up and once down in a cycle; noise below a quarter of half
    its swing.

    Source
    ------
    common_electrical

    Notes
    -----
    The swing is that of 99 % of the samples. A crossing counts once the voltage was below the
    middle by a quarter of half the swing, and then above it by as much.
    """
    low, high = np.quantile(voltage, (OUTER, 1.0 - OUTER))
    middle, reach = 0.5 * (low + high), 0.5 * HYSTERESIS * (high - low)
    side = np.where(voltage > middle + reach, 1, np.where(voltage < middle - reach, -1, 0))
    decided = np.flatnonzero(side)
    rises = decided[1:][(side[decided[1:]] == 1) & (side[decided[:-1]] == -1)]
    through = np.flatnonzero((voltage[:-1] <= middle) & (voltage[1:] > middle))
    if not len(rises):
        return np.empty(0)
    at = through[np.searchsorted(through, rises) - 1]
    part = (middle - voltage[at]) / (voltage[at + 1] - voltage[at])
    return np.asarray(time[at] + part * (time[at + 1] - time[at]))


def loop_area(*, voltage: Array, charge: Array) -> float:
    """Energy that a tube takes in one closed loop of charge against voltage.

    Parameters
    ----------
    voltage : array
        At the corners of the loop, in order of time. [V]
    charge : array
        At the same corners. [C]

    Returns
    -------
    energy : float
        Above zero where the tube takes it in. [J]

    Raises
    ------
    None

    Valid
    -----
    A loop of many samples; the last corner is joined to the first by a straight line.

    Source
    ------
    common_electrical, area of a polygon

    Notes
    -----
    W = 1/2 sum (V_i Q_i+1 - V_i+1 Q_i), counted from the first corner so that large offsets
    cost no digits.
    """
    v, q = voltage - voltage[0], charge - charge[0]
    return float(0.5 * np.sum(v[:-1] * q[1:] - v[1:] * q[:-1]))


def energy_per_cycle(*, time: Array, voltage: Array, charge: Array, bounds: Array) -> Array:
    """Energy of each cycle of a record.

    Parameters
    ----------
    time : array
        Rising. [s]
    voltage : array
        At these times. [V]
    charge : array
        At these times. [C]
    bounds : array
        Where cycles begin and end, rising, within the record. [s]

    Returns
    -------
    energy : array
        Shape (bounds - 1,). [J]

    Raises
    ------
    None

    Valid
    -----
    Twenty or more samples in a cycle.

    Source
    ------
    common_electrical, area of a polygon

    Notes
    -----
    Ends between samples are put in by a straight line.
    """
    ends_v, ends_q = np.interp(bounds, time, voltage), np.interp(bounds, time, charge)
    first = np.searchsorted(time, bounds[:-1], side="right")
    last = np.searchsorted(time, bounds[1:], side="left")
    return np.array(
        [
            loop_area(
                voltage=np.concatenate([[ends_v[k]], voltage[a:b], [ends_v[k + 1]]]),
                charge=np.concatenate([[ends_q[k]], charge[a:b], [ends_q[k + 1]]]),
            )
            for k, (a, b) in enumerate(zip(first, last, strict=True))
        ]
    )


def mean_cycle(*, time: Array, values: Array, bounds: Array, points: int) -> Array:
    """One channel over a cycle, the mean of all cycles.

    Parameters
    ----------
    time : array
        Rising. [s]
    values : array
        Of the channel, in its own unit. [1]
    bounds : array
        Where cycles begin and end, rising, within the record. [s]
    points : int
        Of the mean cycle, evenly apart; the last is the end, not the start of the next. [1]

    Returns
    -------
    values : array
        Shape (points,), in the unit of the channel. [1]

    Raises
    ------
    None

    Valid
    -----
    Cycles alike but for their length.

    Source
    ------
    common_electrical
    """
    part = np.linspace(0.0, 1.0, points)
    moments = bounds[:-1, None] + part * np.diff(bounds)[:, None]
    return np.asarray(np.interp(moments.ravel(), time, values).reshape(moments.shape).mean(axis=0))


def independent_count(*, values: Array) -> float:
    """How many independent values a row of neighbours that err alike is worth.

    Parameters
    ----------
    values : array
        In order; three or more. [1]

    Returns
    -------
    count : float
        At least 2, at most the length of the row. [1]

    Raises
    ------
    None

    Valid
    -----
    Errors that fade by the same share from each neighbour to the next.

    Source
    ------
    common_electrical

    Notes
    -----
    n (1 - r)/(1 + r), with r the correlation of neighbours where it is above nought.
    """
    away = values - np.mean(values)
    squares = float(away @ away)
    alike = float(away[:-1] @ away[1:]) / squares if squares > 0.0 else 0.0
    r = alike if alike > 0.0 else 0.0
    return max(2.0, len(values) * (1.0 - r) / (1.0 + r))


def left_over_energy(*, energies: Array, periods: Array) -> Array:
    """Energy of each cycle beyond what the mean power gives in its time.

    Parameters
    ----------
    energies : array
        Of the cycles. [J]
    periods : array
        Of the same cycles, above zero. [s]

    Returns
    -------
    energies : array
        Their sum is nought. [J]

    Raises
    ------
    None

    Valid
    -----
    One cycle or more.

    Source
    ------
    common_electrical

    Notes
    -----
    W_k - T_k sum(W)/sum(T). Their scatter over the mean period is that of a ratio of sums: a supply
    that pauses has equal energies and unequal times, and its power is unsure all the same.
    """
    return np.asarray(energies - periods * (energies.sum() / periods.sum()))


def reactive_power(*, time: Array, voltage: Array, charge: Array) -> float:
    """Power that the first harmonic of a loop sends to and fro without spending it.

    Parameters
    ----------
    time : array
        One or more whole cycles, evenly or not. [s]
    voltage : array
        At these times. [V]
    charge : array
        At these times. [C]

    Returns
    -------
    power : float
        Half the frequency in radians times voltage times charge in phase with it. [W]

    Raises
    ------
    None

    Valid
    -----
    A record of one cycle from end to end; give several by their mean cycle.

    Source
    ------
    common_electrical, first harmonic of a wave

    Notes
    -----
    A phase between the channels of a small angle changes the power of the loop by this power times
    the angle in radians.
    """
    turn = 2.0 * np.pi * (time - time[0]) / (time[-1] - time[0])
    wave = np.exp(-1j * turn)
    v1, q1 = (np.trapezoid(each * wave, turn) / np.pi for each in (voltage, charge))
    return float(np.pi / (time[-1] - time[0]) * np.real(v1 * np.conj(q1)))


def top_share(*, values: Array) -> Real:
    """Share of a record that stands exactly at its highest value.

    Parameters
    ----------
    values : array
        Of one channel. [1]

    Returns
    -------
    share : float
        Samples at the highest value over all. [1]

    Raises
    ------
    None

    Valid
    -----
    Any record.

    Source
    ------
    common_electrical
    """
    return float(np.mean(values == np.max(values)))


def top_share_of_sine(*, step: Real, swing: Real) -> Real:
    """Share of a cycle that a sine stands in the highest step of a digital record.

    Parameters
    ----------
    step : float
        Smallest difference that the record can show. [1]
    swing : float
        From the lowest to the highest value, at least one step. [1]

    Returns
    -------
    share : float
        Of the cycle. [1]

    Raises
    ------
    None

    Valid
    -----
    Swing of a step or more.

    Source
    ------
    common_electrical

    Notes
    -----
    arccos(1 - 2 step/swing)/pi
    """
    share: Real = np.arccos(1.0 - 2.0 * step / swing) / np.pi
    return share
