"""What a detector in a room would read after a release that began and ended."""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real


def release_response(*, time: Real, begin: float, end: float, volume: float, loss: float) -> Real:
    """Ozone in a room at a time, for each unit of a release that lasted from begin to end.

    Parameters
    ----------
    time : float
        Of the reading. [s]
    begin : float
        When the release began. [s]
    end : float
        When it ended; infinite where it goes on. [s]
    volume : float
        Air of the room. [m3]
    loss : float
        First-order loss rate, above zero. [1/s]

    Returns
    -------
    response : float
        Concentration per release; zero before it began. [s/m3]

    Raises
    ------
    None

    Valid
    -----
    Well mixed; steady release between begin and end.

    Source
    ------
    lee_1999, the model behind the decay rate

    Notes
    -----
    (exp(-λ(t - t2)) - exp(-λ(t - t1)))/(λV), with t2 the end or the time itself.
    """
    last = np.minimum(time, end)
    lasted = np.where(last > begin, last - begin, 0.0)
    after = np.where(last > begin, np.subtract(time, last), 0.0)
    found: Real = np.exp(-loss * after) * -np.expm1(-loss * lasted) / (loss * volume)
    return found
