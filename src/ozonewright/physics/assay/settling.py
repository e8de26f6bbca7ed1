"""What a generator makes in a run while its output settles, creeps or falls off.

Each has a value at which it does nothing; causes of drift are values away from it.
"""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real


def ozone_produced_settling(
    *, rate: Real, on_time: Real, excess: Real, coldness: Real, time_constant: Real
) -> Real:
    """Ozone that a generator makes in a run while its output settles.

    Parameters
    ----------
    rate : float
        Output once it has settled. [mol/s]
    on_time : float
        Discharge on. [s]
    excess : float
        Output of the cold generator over the settled one, less 1; negative if it rises. [1]
    coldness : float
        At the start: 1 is cold through, 0 is settled. [1]
    time_constant : float
        Of settling, above zero. [s]

    Returns
    -------
    ozone : float
        Made in the run. [mol]

    Raises
    ------
    None

    Valid
    -----
    One time constant.

    Source
    ------
    stoichiometry

    Notes
    -----
    The integral of rate (1 + A c exp(-t/T)) over the on-time.
    """
    return rate * (
        on_time + excess * coldness * time_constant * (1.0 - np.exp(-on_time / time_constant))
    )


def coldness_after_run(*, coldness: Real, on_time: Real, time_constant: Real) -> Real:
    """How cold a generator still is at the end of a run.

    Parameters
    ----------
    coldness : float
        At the start: 1 is cold through, 0 is settled. [1]
    on_time : float
        Discharge on. [s]
    time_constant : float
        Of settling, above zero. [s]

    Returns
    -------
    coldness : float
        At the end. [1]

    Raises
    ------
    None

    Valid
    -----
    One time constant.

    Source
    ------
    stoichiometry
    """
    return coldness * np.exp(-on_time / time_constant)


def coldness_after_rest(*, coldness: Real, rest: Real, time_constant: Real) -> Real:
    """How cold a generator has become again after a rest.

    Parameters
    ----------
    coldness : float
        At the start of the rest. [1]
    rest : float
        Discharge off. [s]
    time_constant : float
        Of cooling, above zero. [s]

    Returns
    -------
    coldness : float
        At the end of the rest. [1]

    Raises
    ------
    None

    Valid
    -----
    One time constant.

    Source
    ------
    stoichiometry
    """
    return 1.0 - (1.0 - coldness) * np.exp(-rest / time_constant)


def drifted_rate(*, rate: Real, creep: Real, place: Real) -> Real:
    """Output that creeps from run to run.

    Parameters
    ----------
    rate : float
        Of the first run. [mol/s]
    creep : float
        Change per run as a share of the first. [1]
    place : float
        Of the run in order, from 0. [1]

    Returns
    -------
    rate : float
        Of that run. [mol/s]

    Raises
    ------
    None

    Valid
    -----
    Few per cent per run; compounded, so that it never turns negative.

    Source
    ------
    stoichiometry
    """
    return rate * np.exp(creep * place)


def bent_output(*, on_time: Real, reference: Real, bend: Real) -> Real:
    """Factor on what is collected when it follows a power of the on-time.

    Parameters
    ----------
    on_time : float
        Of the run, above zero. [s]
    reference : float
        On-time at which the factor is 1. [s]
    bend : float
        Exponent less 1. [1]

    Returns
    -------
    factor : float
        On the ozone of the run. [1]

    Raises
    ------
    None

    Valid
    -----
    No mechanism: the shape of whatever stands on no list.

    Source
    ------
    stoichiometry
    """
    return (on_time / reference) ** bend
