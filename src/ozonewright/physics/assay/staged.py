"""What a run collects, stage by stage: delivery, capture, recovery, titration.

Each stage has a value at which it does nothing; causes of drift are values away from it.
"""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real

HALVINGS = 4
"""Two to this power, 16, is the sharpness with which a trap passes from catching everything to
catching nothing more."""


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
