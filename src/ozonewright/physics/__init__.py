"""Pure functions on SI floats: numbers from numbers.

Every function is keyword-only, broadcasts over numpy arrays, and names its source. Functions that
an ordinary answer needs use operators alone (``E**x``, ``x**0.5``), so that they serve floats
without loading numpy, which would double the time to a first answer.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Real = float | NDArray[np.float64]
else:
    Real = float

__all__ = ["Real"]
