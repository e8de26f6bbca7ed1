"""The distinct uncertain inputs of one call, and the one place where the function is called."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import Inconsistent, InputError, OutOfBounds
from ozonewright.uncertain.inputs import Measured

Numeric = float | NDArray[np.float64]
Correlation = Mapping[frozenset[str] | tuple[str, str], float]
ALONE = ""
"""Key of the one output of a function that returns a bare number."""


@dataclass(frozen=True, slots=True, eq=False)
class Origins:
    """Distinct uncertain inputs, by name, in order of first use.

    Arrays are in that order: `value` and `u` of shape (n,) in SI, `correlation` of shape (n, n).
    `root` is a matrix A with A Aᵀ = correlation. `blocks` groups inputs tied by a stated
    correlation; an untied input is a block of its own.
    """

    inputs: tuple[Measured, ...]
    place: Mapping[str, int]
    exact: Mapping[str, float]
    value: NDArray[np.float64]
    u: NDArray[np.float64]
    correlation: NDArray[np.float64]
    root: NDArray[np.float64]
    blocks: tuple[tuple[int, ...], ...]

    def names(self, places: Iterable[int]) -> str:
        """Return the names of some inputs, for a message."""
        return " and ".join(self.inputs[i].name for i in places)

    def call(
        self, function: Callable[..., Any], deviation: NDArray[np.float64]
    ) -> tuple[dict[str, NDArray[np.float64]], bool]:
        """Return each output, and whether it is a bare number, at inputs off by `deviation`.

        Parameters
        ----------
        function : callable
            Pure and broadcasting, of the keys of the inputs.
        deviation : array
            Off the best estimates, in standard uncertainties; shape (n, points). [1]

        Returns
        -------
        outputs : dict of array
            One array of shape (points,) per output. [SI of the output]
        bare : bool
            The function returned a number rather than a mapping.
        """
        columns = self.value[:, None] + self.u[:, None] * deviation
        arguments = dict(self.exact) | {key: columns[i] for key, i in self.place.items()}
        # What is not finite is found by the callers, who can name the input behind it.
        with np.errstate(all="ignore"):
            answer = function(**arguments)
        bare = not isinstance(answer, Mapping)
        table = {ALONE: answer} if bare else answer
        points = deviation.shape[1]
        return {
            name: np.broadcast_to(np.asarray(output, dtype=float), (points,))
            for name, output in table.items()
        }, bare


def gather(inputs: Mapping[str, Measured], correlation: Correlation | None) -> Origins:
    """Return the distinct inputs of a call; refuse one name with two meanings."""
    known: dict[str, Measured] = {}
    for measured in inputs.values():
        if known.setdefault(measured.name, measured) != measured:
            raise Inconsistent(
                "one name, two different readings",
                where=measured.name,
                got=f"{known[measured.name].value:g} and {measured.value:g}",
                fix="Give one reading to both uses, or two names.",
            )
    uncertain = tuple(measured for measured in known.values() if measured.u > 0.0)
    index = {measured.name: i for i, measured in enumerate(uncertain)}
    matrix = _matrix(known, index, correlation or {})
    return Origins(
        inputs=uncertain,
        place={key: index[m.name] for key, m in inputs.items() if m.name in index},
        # A numpy float divided by zero is found below; a plain one would end in a trace.
        exact={key: np.float64(m.value) for key, m in inputs.items() if m.name not in index},
        value=np.array([m.value for m in uncertain], dtype=float),
        u=np.array([m.u for m in uncertain], dtype=float),
        correlation=matrix,
        root=_root(matrix),
        blocks=_blocks(matrix),
    )


def _matrix(
    known: Mapping[str, Measured], index: Mapping[str, int], correlation: Correlation
) -> NDArray[np.float64]:
    matrix = np.eye(len(index))
    stated: set[frozenset[str]] = set()
    for pair, r in correlation.items():
        names = frozenset(pair)
        shown = " and ".join(sorted(names))
        if len(names) != 2 or not names <= known.keys():
            raise InputError(
                "a correlation ties two different inputs by name",
                where="correlation",
                got=shown,
                fix="Use two of: " + ", ".join(known) + ".",
            )
        if names in stated:
            raise Inconsistent(
                "a correlation stated twice", where="correlation", got=shown, fix="State it once."
            )
        if not -1.0 <= r <= 1.0:
            raise OutOfBounds(
                "a correlation coefficient lies between -1 and 1",
                where=shown,
                got=f"{r:g}",
                fix="Divide the covariance by both standard uncertainties.",
            )
        stated.add(names)
        if names <= index.keys():
            i, j = (index[name] for name in names)
            matrix[i, j] = matrix[j, i] = r
    return matrix


def _root(matrix: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return A with A Aᵀ = matrix, also where inputs are wholly correlated (no Cholesky then)."""
    strength, axes = np.linalg.eigh(matrix)
    rounding = 1e-12 * max(len(matrix), 1)
    if (strength < -rounding).any():
        raise Inconsistent(
            "these correlations can't hold together",
            where="correlation",
            fix="Work them out from one set of readings: the matrix has a negative eigenvalue.",
        )
    strength = np.where(strength < rounding, 0.0, strength)
    return np.asarray(axes * np.sqrt(strength))


def _blocks(matrix: NDArray[np.float64]) -> tuple[tuple[int, ...], ...]:
    """Return the groups of inputs that stated correlations tie together, directly or by others."""
    left, blocks = set(range(len(matrix))), []
    while left:
        block, edge = set[int](), {min(left)}
        while edge:
            block |= edge
            edge = {j for i in edge for j in left - block if matrix[i, j] != 0.0}
        left -= block
        blocks.append(tuple(sorted(block)))
    return tuple(blocks)
