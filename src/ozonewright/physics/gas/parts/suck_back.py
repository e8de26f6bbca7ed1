"""Liquid drawn up by gas that cools behind it."""

from __future__ import annotations

from ozonewright.physics import Real


def column_drawn_up(
    *, volume: Real, shrink: Real, area: Real, depth: Real, weight: Real, pressure: Real
) -> Real:
    """Height of liquid drawn up a tube from its lower end, by shut-in gas that cools.

    Parameters
    ----------
    volume : float
        Of the gas shut in above the liquid. [m3]
    shrink : float
        Share by which the gas would shrink at one pressure; 0 draws up nothing. [1]
    area : float
        Cross-section of the tube. [m2]
    depth : float
        Of the lower end under the liquid. [m]
    weight : float
        Of the liquid over its volume. [N/m3]
    pressure : float
        Absolute pressure on the liquid. [Pa]

    Returns
    -------
    height : float
        Of the column in the tube, from its lower end; less the depth it stands that far above the
        surface of the liquid. [m]

    Raises
    ------
    None

    Valid
    -----
    A tube long enough, of one bore; liquid enough; still the same surface. Before, the gas just
    keeps the liquid out of the tube.

    Source
    ------
    shut_in_gas

    Notes
    -----
    (P - w x)(V - A x) = P V (1 - shrink), P = p + w depth; the smaller root.
    """
    inside = pressure + weight * depth
    b = inside * area + weight * volume
    c = inside * volume * shrink
    return 2.0 * c / (b + (b * b - 4.0 * weight * area * c) ** 0.5)
