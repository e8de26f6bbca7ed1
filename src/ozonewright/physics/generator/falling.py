"""Output of a tube that warms while it is on: it hangs on the temperature as on a straight line."""

from __future__ import annotations

from collections.abc import Sequence
from math import e

import numpy as np
from numpy.typing import NDArray

from ozonewright.physics import Real
from ozonewright.physics.generator.duty import trough_share

Array = NDArray[np.float64]


def mean_share(*, on_time: Real, off_time: Real, time_constant: Real) -> Real:
    """Share of the continuous rise, as a mean over each on-time of a pattern that repeats itself.

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
        Mean rise while on, over the continuous rise. [1]

    Raises
    ------
    None

    Valid
    -----
    One body, even heating; after about four time constants of the pattern.

    Source
    ------
    incropera_2007, lumped capacitance

    Notes
    -----
    1 - (1 - trough) (tau / t_on) (1 - exp(-t_on / tau)), the integral of the warming.
    """
    trough = trough_share(on_time=on_time, off_time=off_time, time_constant=time_constant)
    return 1.0 - (1.0 - trough) * _left(on_time / time_constant)


def first_mean_share(*, on_time: Real, time_constant: Real) -> Real:
    """Share of the continuous rise, as a mean over one on-time from cold.

    Parameters
    ----------
    on_time : float
        Discharge on, from cold. [s]
    time_constant : float
        Of the tube. [s]

    Returns
    -------
    share : float
        Mean rise while on, over the continuous rise. [1]

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
    1 - (tau / t_on) (1 - exp(-t_on / tau))
    """
    return 1.0 - _left(on_time / time_constant)


def mean_rise(
    *, on_time: Real, off_time: Real, rises: Sequence[Real], time_constants: Sequence[Real]
) -> Real:
    """Rise over the ambient as a mean over each on-time, of bodies that warm side by side.

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
        While on, once the pattern repeats itself. [K]

    Raises
    ------
    None

    Valid
    -----
    The rises add up, as those of a tube in a box do.

    Source
    ------
    stout_undated, sum over the terms of a thermal network
    """
    return sum(
        rise * mean_share(on_time=on_time, off_time=off_time, time_constant=time_constant)
        for rise, time_constant in zip(rises, time_constants, strict=True)
    )


def trough_rise(
    *, on_time: Real, off_time: Real, rises: Sequence[Real], time_constants: Sequence[Real]
) -> Real:
    """Lowest rise over the ambient of a repeated pattern, of bodies that warm side by side.

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
        At the start of each on-time. [K]

    Raises
    ------
    None

    Valid
    -----
    The rises add up, as those of a tube in a box do.

    Source
    ------
    stout_undated, sum over the terms of a thermal network
    """
    return sum(
        rise * trough_share(on_time=on_time, off_time=off_time, time_constant=time_constant)
        for rise, time_constant in zip(rises, time_constants, strict=True)
    )


def first_mean_rise(
    *, on_time: Real, rises: Sequence[Real], time_constants: Sequence[Real]
) -> Real:
    """Rise over the ambient as a mean over one on-time from cold, of bodies side by side.

    Parameters
    ----------
    on_time : float
        Discharge on, from cold. [s]
    rises : sequence of float
        Continuous rise that each body brings. [K]
    time_constants : sequence of float
        Of each body. [s]

    Returns
    -------
    rise : float
        While on. [K]

    Raises
    ------
    None

    Valid
    -----
    The rises add up, as those of a tube in a box do.

    Source
    ------
    stout_undated, sum over the terms of a thermal network
    """
    return sum(
        rise * first_mean_share(on_time=on_time, time_constant=time_constant)
        for rise, time_constant in zip(rises, time_constants, strict=True)
    )


def _left(units: Real) -> Real:
    """Return the mean of exp(-x) from nought to so many units."""
    return (1.0 - e ** (-units)) / units


def output_at(*, rate: Real, coefficient: Real, temperature: Real, reference: Real) -> Real:
    """Output of a tube at another temperature than that at which it is known.

    Parameters
    ----------
    rate : float
        Output at the reference. [kg/s]
    coefficient : float
        Change per kelvin, as a share of the output at the reference; negative where it falls. [1/K]
    temperature : float
        Of the tube. [K]
    reference : float
        Temperature to which the output belongs. [K]

    Returns
    -------
    rate : float
        Output at that temperature. [kg/s]

    Raises
    ------
    None

    Valid
    -----
    A straight line: of a mean temperature it gives the mean output. The discharge model leaves a
    line over 60 K by less than 1 % on oxygen, by up to 3 % on warm air.

    Source
    ------
    stoichiometry

    Notes
    -----
    r (1 + c (T - T_ref))
    """
    return rate * (1.0 + coefficient * (temperature - reference))


def output_between(*, cold: Real, steady: Real, share: Real) -> Real:
    """Output of a tube part of the way from cold to where it stays if it runs on.

    Parameters
    ----------
    cold : float
        Output of the cold tube. [kg/s]
    steady : float
        Output of a tube that has run on. [kg/s]
    share : float
        Of the continuous rise. [1]

    Returns
    -------
    rate : float
        Output there. [kg/s]

    Raises
    ------
    None

    Valid
    -----
    As `output_at`: output on a straight line against temperature.

    Source
    ------
    stoichiometry
    """
    return cold + (steady - cold) * share


def cold_excess(*, coefficient: Real, cold: Real, rise: Real) -> Real:
    """Output of the cold tube over that of one that has run on, less 1.

    Parameters
    ----------
    coefficient : float
        Change per kelvin, as a share of the output at the reference. [1/K]
    cold : float
        Temperature of the cold tube less the reference. [K]
    rise : float
        Continuous rise of the tube. [K]

    Returns
    -------
    excess : float
        Negative where the output rises as the tube warms. [1]

    Raises
    ------
    None

    Valid
    -----
    As `output_at`: output on a straight line against temperature.

    Source
    ------
    stoichiometry
    """
    return (1.0 + coefficient * cold) / (1.0 + coefficient * (cold + rise)) - 1.0


def mean_between(*, times: Array, values: Array, begin: float, end: float) -> float:
    """Mean of a course of readings between two times, straight from reading to reading.

    Parameters
    ----------
    times : array of float
        Of the readings, rising; shape (n,). [s]
    values : array of float
        Temperatures read; shape (n,). [K]
    begin : float
        Not before the first reading. [s]
    end : float
        After `begin`, not after the last reading. [s]

    Returns
    -------
    mean : float
        Over the time between. [K]

    Raises
    ------
    None

    Valid
    -----
    Readings closer together than the temperature bends.

    Source
    ------
    stoichiometry
    """
    inside = times[(times > begin) & (times < end)]
    at = np.concatenate([[begin], inside, [end]])
    return float(np.trapezoid(np.interp(at, times, values), at) / (end - begin))
