"""Ozone in the air of a room: one well-mixed box with air changes and loss on its surfaces."""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real


def loss_rate(*, air_changes: Real, removal: Real, decay: Real = 0.0) -> Real:
    """Rate at which a room loses its ozone, from all that takes it away.

    Parameters
    ----------
    air_changes : float
        Fresh air per volume of the room. [1/s]
    removal : float
        Loss on walls, furniture and people. [1/s]
    decay : float
        Loss in the air itself. [1/s]

    Returns
    -------
    loss_rate : float
        First-order rate. [1/s]

    Raises
    ------
    None

    Valid
    -----
    Ozone-free fresh air; well mixed: close to a leak there is far more.

    Source
    ------
    lee_1999, the model behind the decay rate
    """
    return air_changes + removal + decay


def room_concentration(
    *, time: Real, release: Real, volume: Real, loss: Real, start: Real = 0.0
) -> Real:
    """Ozone in a room some time after a steady release began.

    Parameters
    ----------
    time : float
        Since the release began. [s]
    release : float
        Ozone let into the room. [kg/s]
    volume : float
        Air of the room. [m3]
    loss : float
        First-order loss rate; may be zero. [1/s]
    start : float
        Ozone in the room at time zero. [kg/m3]

    Returns
    -------
    concentration : float
        Mean over the room. [kg/m3]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; steady release; close to a leak there is far more.

    Source
    ------
    lee_1999, the model behind the decay rate

    Notes
    -----
    c = c0 exp(-λt) + (S/V) t (1 - exp(-λt))/(λt); the last factor is 1 without loss.
    """
    turned = np.multiply(loss, time)
    lasting = np.where(turned == 0.0, 1.0, turned)
    share = np.where(turned == 0.0, 1.0, -np.expm1(-lasting) / lasting)
    found: Real = start * np.exp(-turned) + release / volume * time * share
    return found


def steady_concentration(*, release: Real, volume: Real, loss: Real) -> Real:
    """Ozone in a room once a steady release and its loss balance.

    Parameters
    ----------
    release : float
        Ozone let into the room. [kg/s]
    volume : float
        Air of the room. [m3]
    loss : float
        First-order loss rate, above zero: without loss there is no steady state. [1/s]

    Returns
    -------
    concentration : float
        Mean over the room. [kg/m3]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; reached to 95 % after three times 1/loss.

    Source
    ------
    lee_1999, the model behind the decay rate

    Example
    -------
    100 mg/h in 24 m3 at 3.3 /h is 1.263 mg/m3.
    """
    return release / (volume * loss)


def mean_concentration(*, time: Real, release: Real, volume: Real, loss: Real) -> Real:
    """Mean over time of the ozone in a room that was clean when a steady release began.

    Parameters
    ----------
    time : float
        Over which is averaged, from the beginning of the release. [s]
    release : float
        Ozone let into the room. [kg/s]
    volume : float
        Air of the room. [m3]
    loss : float
        First-order loss rate, above zero. [1/s]

    Returns
    -------
    concentration : float
        Mean over the room and the time. [kg/m3]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; steady release; somebody who stays all the time.

    Source
    ------
    lee_1999, the model behind the decay rate

    Notes
    -----
    The integral of the rise over its time: (S/λV) (1 - (1 - exp(-λt))/(λt)).
    """
    turned = np.multiply(loss, time)
    found: Real = release / (volume * loss) * (1.0 + np.expm1(-turned) / turned)
    return found


def time_to_limit(
    *, limit: Real, release: Real, volume: Real, loss: Real, start: Real = 0.0
) -> Real:
    """Time until a steady release brings a room to a limit.

    Parameters
    ----------
    limit : float
        Concentration asked for. [kg/m3]
    release : float
        Ozone let into the room. [kg/s]
    volume : float
        Air of the room. [m3]
    loss : float
        First-order loss rate; may be zero. [1/s]
    start : float
        Ozone in the room at time zero. [kg/m3]

    Returns
    -------
    time : float
        Zero where the room begins at or above the limit, infinite where it is never passed. [s]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; near a leak the limit is passed at once.

    Source
    ------
    lee_1999, the model behind the decay rate

    Notes
    -----
    t = -ln(1 - x)/λ with x = λ V (L - c0)/(S - λ V c0); V (L - c0)/S without loss.
    """
    limit, release, volume, loss, start = np.broadcast_arrays(limit, release, volume, loss, start)
    rise = release - loss * volume * start
    wanted = volume * (limit - start)
    reached = (rise > loss * wanted) & (wanted > 0.0)
    share = np.where(reached, loss * wanted / np.where(reached, rise, 1.0), 0.0)
    curved = reached & (loss > 0.0)
    found = np.where(reached, wanted / np.where(reached, rise, 1.0), np.inf)
    found = np.where(curved, -np.log1p(-share) / np.where(curved, loss, 1.0), found)
    found = np.where(start >= limit, 0.0, found)
    return found if found.ndim else float(found)


def time_to_fall(*, start: Real, limit: Real, loss: Real) -> Real:
    """Time until the ozone of a room has fallen to a limit after its release has ended.

    Parameters
    ----------
    start : float
        Ozone in the room when the release ends. [kg/m3]
    limit : float
        Concentration asked for, above zero. [kg/m3]
    loss : float
        First-order loss rate; may be zero. [1/s]

    Returns
    -------
    time : float
        Zero where the room is below the limit already, infinite without loss. [s]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; no release left, such as liquid that still gives off gas.

    Source
    ------
    lee_1999, the model behind the decay rate

    Example
    -------
    From 1 to 0.1 ppm at 8.8 /h takes 15.70 min.
    """
    start, limit, loss = np.broadcast_arrays(start, limit, loss)
    above = start > limit
    falls = above & (loss > 0.0)
    time = np.log(np.where(falls, start, 1.0) / np.where(falls, limit, 1.0))
    found = np.where(falls, time / np.where(falls, loss, 1.0), np.where(above, np.inf, 0.0))
    return found if found.ndim else float(found)


def air_changes_needed(*, release: Real, volume: Real, limit: Real, removal: Real) -> Real:
    """Air changes that keep the steady state of a release at a limit.

    Parameters
    ----------
    release : float
        Ozone let into the room. [kg/s]
    volume : float
        Air of the room. [m3]
    limit : float
        Concentration not to be passed, above zero. [kg/m3]
    removal : float
        Loss by all else than air changes. [1/s]

    Returns
    -------
    air_changes : float
        Zero where the other losses are enough. [1/s]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; ozone-free fresh air.

    Source
    ------
    lee_1999, the model behind the decay rate
    """
    needed = release / (volume * limit) - removal
    found: Real = np.where(needed > 0.0, needed, 0.0)[()]
    return found


def removal_by_deposition(*, deposition_velocity: Real, surface_per_volume: Real) -> Real:
    """Loss of ozone on the surfaces of a room from its deposition velocity.

    Parameters
    ----------
    deposition_velocity : float
        Of ozone on the surfaces. [m/s]
    surface_per_volume : float
        Walls and furniture per air. [1/m]

    Returns
    -------
    removal : float
        First-order rate. [1/s]

    Raises
    ------
    None

    Valid
    -----
    Surfaces that don't saturate; painted walls, wood, fabric.

    Source
    ------
    lee_1999, abstract: 2.80 /h and 0.049 cm/s
    """
    return deposition_velocity * surface_per_volume


def concentration_of_puff(*, mass: Real, volume: Real) -> Real:
    """Ozone in a room just after a mass of it was let out at once, such as a purge into it.

    Parameters
    ----------
    mass : float
        Ozone let out. [kg]
    volume : float
        Air of the room. [m3]

    Returns
    -------
    concentration : float
        Mean over the room. [kg/m3]

    Raises
    ------
    None

    Valid
    -----
    Once mixed; close by it is far more.

    Source
    ------
    stoichiometry
    """
    return mass / volume
