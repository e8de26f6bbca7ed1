"""How long the discharge must be on for a reaction, and what passes the flask meanwhile."""

from __future__ import annotations

from ozonewright.errors import NotApplicable
from ozonewright.physics import Real
from ozonewright.references.constants import IODIDE_PER_OZONE


def dosing_time(*, demand: Real, rate: Real, uptake: Real) -> Real:
    """On-time that brings a demand of ozone into a reaction.

    Parameters
    ----------
    demand : float
        Ozone that the substrate takes. [mol]
    rate : float
        Output. [mol/s]
    uptake : float
        Share of the ozone that the reaction takes. [1]

    Returns
    -------
    time : float
        With the discharge on and the output steady. [s]

    Raises
    ------
    None

    Valid
    -----
    Steady output and uptake.

    Source
    ------
    stoichiometry

    Notes
    -----
    t = n / (ṅ η)

    Example
    -------
    10.0 mmol at 0.62 g/h and 88 % take 52.8 min.
    """
    return demand / (rate * uptake)


def on_time_with_starts(*, dosing_time: Real, starts: Real, start_loss: Real) -> Real:
    """On-time with what each start of the discharge loses.

    Parameters
    ----------
    dosing_time : float
        Needed with a steady output. [s]
    starts : float
        How often the discharge is switched on. [1]
    start_loss : float
        On-time without output at each start. [s]

    Returns
    -------
    on_time : float
        To be counted at the switch. [s]

    Raises
    ------
    None

    Valid
    -----
    A start loss that is the same each time.

    Source
    ------
    stoichiometry
    """
    return dosing_time + starts * start_loss


def starts_needed(*, dosing_time: float, timer_on: float, start_loss: float) -> int:
    """Periods of an on/off timer that a dosing time fills.

    Parameters
    ----------
    dosing_time : float
        Needed with a steady output. [s]
    timer_on : float
        Of each period. [s]
    start_loss : float
        On-time without output at each start. [s]

    Returns
    -------
    starts : int
        Periods begun. [1]

    Raises
    ------
    NotApplicable
        The start takes up the whole period.

    Valid
    -----
    A start loss that is the same each time.

    Source
    ------
    stoichiometry
    """
    yielding = timer_on - start_loss
    if yielding <= 0.0:
        raise NotApplicable(
            "the start loss is as long as the timer's on-period: no ozone comes",
            got=f"{start_loss:g} s of {timer_on:g} s",
            fix="Set a longer on-period.",
        )
    return int(-(-dosing_time // yielding))


def clock_time(*, on_time: Real, starts: Real, timer_off: Real) -> Real:
    """Time by the clock of an on-time that a timer interrupts.

    Parameters
    ----------
    on_time : float
        Discharge on, in all. [s]
    starts : float
        Periods begun. [1]
    timer_off : float
        Rest between two periods. [s]

    Returns
    -------
    time : float
        From the first on to the last off. [s]

    Raises
    ------
    None

    Valid
    -----
    One rest between each two periods, none after the last.

    Source
    ------
    stoichiometry

    Example
    -------
    52.8 min in periods of 6 min with rests of 9 min: 9 periods, 8 rests, 124.8 min.
    """
    return on_time + (starts - 1) * timer_off


def ozone_past(*, rate: Real, on_time: Real, uptake: Real) -> Real:
    """Ozone that leaves the flask with the gas.

    Parameters
    ----------
    rate : float
        Output. [mol/s]
    on_time : float
        Discharge on. [s]
    uptake : float
        Share that the reaction takes. [1]

    Returns
    -------
    ozone : float
        Past the flask. [mol]

    Raises
    ------
    None

    Valid
    -----
    Steady output and uptake; no decay in the line.

    Source
    ------
    stoichiometry

    Notes
    -----
    With an uptake of zero it is all the ozone delivered.
    """
    return rate * on_time * (1.0 - uptake)


def uptake_from_slip(*, slipped: Real, delivered: Real) -> Real:
    """Uptake from what a bottle behind the flask caught.

    Parameters
    ----------
    slipped : float
        Ozone caught behind the flask. [mol]
    delivered : float
        Ozone sent into it meanwhile. [mol]

    Returns
    -------
    uptake : float
        Share taken. [1]

    Raises
    ------
    None

    Valid
    -----
    The bottle behind catches all that comes; no decay in the line.

    Source
    ------
    stoichiometry
    """
    return 1.0 - slipped / delivered


def tail_iodide(*, ozone: Real, margin: Real) -> Real:
    """Iodide that a tail bottle needs.

    Parameters
    ----------
    ozone : float
        That may reach the tail bottle. [mol]
    margin : float
        Multiple of the least needed. [1]

    Returns
    -------
    iodide : float
        In the bottle. [mol]

    Raises
    ------
    None

    Valid
    -----
    O3 + 2 I- + H2O = I2 + O2 + 2 OH-.

    Source
    ------
    stoichiometry
    """
    return ozone * IODIDE_PER_OZONE * margin
