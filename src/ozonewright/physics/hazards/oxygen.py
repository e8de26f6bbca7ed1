"""Oxygen that collects in a room or in a box."""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real


def oxygen_fraction(
    *, time: Real, flow: Real, oxygen: Real, volume: Real, fresh_air: Real, air_oxygen: Real
) -> Real:
    """Oxygen in a room or box some time after oxygen-rich gas began to enter it.

    Parameters
    ----------
    time : float
        Since the gas began to enter. [s]
    flow : float
        Gas that enters, at the temperature and pressure of the room; may be zero. [m3/s]
    oxygen : float
        Oxygen in that gas. [1]
    volume : float
        Air of the room or box. [m3]
    fresh_air : float
        Fresh air let in besides; may be zero. [m3/s]
    air_oxygen : float
        Oxygen in fresh air, and in the room at first. [1]

    Returns
    -------
    fraction : float
        Mole fraction of oxygen, mean over the room. [1]

    Raises
    ------
    None

    Valid
    -----
    Well mixed, as much gas leaves as enters; near a leak, and low down if cold, there is more.

    Source
    ------
    stoichiometry

    Notes
    -----
    x = x_a + (x_g - x_a) q/(q + Q) (1 - exp(-(q + Q) t/V))

    Example
    -------
    1 L/min of oxygen into 40 L without a fan passes 30 % in five minutes.
    """
    through = np.add(flow, fresh_air)
    share = np.divide(flow, np.where(through > 0.0, through, 1.0))
    found: Real = air_oxygen - (oxygen - air_oxygen) * share * np.expm1(-through * time / volume)
    return found


def oxygen_steady(*, flow: Real, oxygen: Real, fresh_air: Real, air_oxygen: Real) -> Real:
    """Oxygen in a room or box in the end, while oxygen-rich gas and fresh air enter.

    Parameters
    ----------
    flow : float
        Gas that enters, at the temperature and pressure of the room, above zero. [m3/s]
    oxygen : float
        Oxygen in that gas. [1]
    fresh_air : float
        Fresh air let in besides; may be zero. [m3/s]
    air_oxygen : float
        Oxygen in fresh air. [1]

    Returns
    -------
    fraction : float
        Mole fraction of oxygen. [1]

    Raises
    ------
    None

    Valid
    -----
    Well mixed, as much gas leaves as enters.

    Source
    ------
    stoichiometry
    """
    return air_oxygen + (oxygen - air_oxygen) * flow / (flow + fresh_air)


def fresh_air_for_oxygen(*, flow: Real, oxygen: Real, limit: Real, air_oxygen: Real) -> Real:
    """Fresh air that keeps the oxygen of a room or box at a limit.

    Parameters
    ----------
    flow : float
        Gas that enters, at the temperature and pressure of the room. [m3/s]
    oxygen : float
        Oxygen in that gas. [1]
    limit : float
        Oxygen not to be passed, above that of fresh air. [1]
    air_oxygen : float
        Oxygen in fresh air. [1]

    Returns
    -------
    fresh_air : float
        Zero where the gas itself is below the limit. [m3/s]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; what a fan moves through holes is about half its free rating.

    Source
    ------
    stoichiometry
    """
    needed = flow * (oxygen - limit) / (limit - air_oxygen)
    found: Real = np.where(needed > 0.0, needed, 0.0)[()]
    return found


def time_to_oxygen(
    *, limit: Real, flow: Real, oxygen: Real, volume: Real, fresh_air: Real, air_oxygen: Real
) -> Real:
    """Time until oxygen-rich gas brings a room or box to a limit, such as after its fan failed.

    Parameters
    ----------
    limit : float
        Oxygen asked for, above that of fresh air. [1]
    flow : float
        Gas that enters, at the temperature and pressure of the room. [m3/s]
    oxygen : float
        Oxygen in that gas. [1]
    volume : float
        Air of the room or box. [m3]
    fresh_air : float
        Fresh air let in besides; may be zero. [m3/s]
    air_oxygen : float
        Oxygen in fresh air, and in the room at first. [1]

    Returns
    -------
    time : float
        Infinite where the limit is never passed. [s]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; near a leak the limit is passed at once.

    Source
    ------
    stoichiometry
    """
    through = np.add(flow, fresh_air)
    most = (np.subtract(oxygen, air_oxygen)) * flow
    wanted = np.subtract(limit, air_oxygen) * through
    reached = most > wanted
    share = np.where(reached, wanted / np.where(reached, most, 1.0), 0.0)
    found = np.where(reached, -np.log1p(-share) * volume / np.where(reached, through, 1.0), np.inf)
    return found if found.ndim else float(found)
