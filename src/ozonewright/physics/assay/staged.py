"""What a run collects, stage by stage: production, delivery, capture, recovery, titration.

Each stage has a value at which it does nothing; causes of drift are values away from it.
"""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real

HALVINGS = 4
"""Two to this power, 16, is the sharpness with which a trap passes from catching everything to
catching nothing more."""


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


def ozone_shifted(*, produced: Real, rate: Real, late: Real) -> Real:
    """Ozone that leaves the gas line when more or fewer seconds of gas count than were timed.

    Parameters
    ----------
    produced : float
        Made in the run. [mol]
    rate : float
        Output. [mol/s]
    late : float
        Seconds of gas that count besides the on-time: a late stop, gas stored in the line; gas
        held back in the line counts negative. [s]

    Returns
    -------
    ozone : float
        Into the bottles. [mol]

    Raises
    ------
    None

    Valid
    -----
    The seconds are few against the on-time.

    Source
    ------
    stoichiometry
    """
    return produced + rate * late


def ozone_held(*, delivered: Real, capacity: Real) -> Real:
    """Ozone that a trap with a limit holds.

    Parameters
    ----------
    delivered : float
        Into the trap. [mol]
    capacity : float
        Most that it holds. [mol]

    Returns
    -------
    ozone : float
        Held. [mol]

    Raises
    ------
    None

    Valid
    -----
    delivered at or above zero; a smooth passage at the limit is 4 % below it where both are equal.

    Source
    ------
    stoichiometry

    Notes
    -----
    The smaller of the two, rounded off: (m^-16 + C^-16)^(-1/16), in a form that can't overflow.
    """
    less, more = np.minimum(delivered, capacity), np.maximum(delivered, capacity)
    # Powers of two by squares and square roots: several times faster than a power of any number.
    share = less / more
    for _ in range(HALVINGS):
        share = share * share
    root = 1.0 + share
    for _ in range(HALVINGS):
        root = np.sqrt(root)
    return less / root


def iodine_kept(*, loss: Real, on_time: Real) -> Real:
    """Share of the iodine that is still there at the end of a run in which gas carries some off.

    Parameters
    ----------
    loss : float
        Share carried off per time, above zero. [1/s]
    on_time : float
        Gas through the bottle. [s]

    Returns
    -------
    share : float
        Of all iodine that was set free. [1]

    Raises
    ------
    None

    Valid
    -----
    Steady output and a steady share.

    Source
    ------
    stoichiometry

    Notes
    -----
    dn/dt = r - k n gives n/(r t) = (1 - exp(-k t))/(k t).
    """
    x = loss * on_time
    return (1.0 - np.exp(-x)) / x


def share_of_train(*, slip: Real, bottles: Real) -> Real:
    """Share of the ozone that all bottles of a train together hold.

    Parameters
    ----------
    slip : float
        Share of what reaches a bottle that passes it. [1]
    bottles : float
        In series. [1]

    Returns
    -------
    share : float
        Held. [1]

    Raises
    ------
    None

    Valid
    -----
    Every bottle lets the same share pass.

    Source
    ------
    stoichiometry
    """
    return 1.0 - slip**bottles


def surplus_of_run(*, blank: Real, oxidation: Real, gas_time: Real) -> Real:
    """What a run reads as ozone without any: a blank, and one that grows with the gas time.

    Parameters
    ----------
    blank : float
        As ozone, whatever the minutes. [mol]
    oxidation : float
        As ozone per time: iodide that air turns into iodine. [mol/s]
    gas_time : float
        Gas through the bottles. [s]

    Returns
    -------
    surplus : float
        As ozone. [mol]

    Raises
    ------
    None

    Valid
    -----
    With and without discharge alike.

    Source
    ------
    stoichiometry
    """
    return blank + oxidation * gas_time


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
