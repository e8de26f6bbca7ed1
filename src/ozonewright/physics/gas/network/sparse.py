"""Linear equations of a network: few neighbours for each unknown.

A general solver of numpy would do, yet its threads wait for each other on a busy machine, a hundred
times longer than the sum takes.
"""

from __future__ import annotations

from collections.abc import Sequence

NOTHING = 1e-13
"""A pivot below this share of the largest is none."""


def sparse_solution(*, rows: Sequence[dict[int, float]], right: Sequence[float]) -> list[float]:
    """Solution of linear equations whose matrix has its weight on the diagonal.

    Parameters
    ----------
    rows : sequence of dict
        Of each equation the coefficient of each unknown, its own among them; used up. [-]
    right : sequence of float
        Right sides. [-]

    Returns
    -------
    solution : list of float
        Of each unknown; none for one that no equation tells. [-]

    Raises
    ------
    None

    Valid
    -----
    Matrices of networks: alike in shape above and below the diagonal, which outweighs its row.

    Source
    ------
    newton_damped

    Notes
    -----
    Gauss's elimination without exchange of rows, the unknown with the fewest neighbours first.
    """
    sides, left, order = list(right), set(range(len(rows))), []
    largest = max((abs(rows[place][place]) for place in left), default=0.0)
    while left:
        pivot = min(left, key=lambda place: (len(rows[place]), place))
        left.remove(pivot)
        row = rows[pivot]
        if abs(row[pivot]) <= NOTHING * largest:
            for other in row:
                if other != pivot:
                    rows[other].pop(pivot, None)
            rows[pivot].clear()
            order.append(pivot)
            continue
        order.append(pivot)
        for other in [other for other in row if other in left]:
            factor = rows[other].pop(pivot, 0.0) / row[pivot]
            for place, value in row.items():
                if place != pivot:
                    rows[other][place] = rows[other].get(place, 0.0) - factor * value
            sides[other] -= factor * sides[pivot]
    return _backwards(rows, sides, order)


def _backwards(
    rows: Sequence[dict[int, float]], sides: Sequence[float], order: Sequence[int]
) -> list[float]:
    found = [0.0] * len(rows)
    for pivot in reversed(order):
        row = rows[pivot]
        if row:
            known = sum(value * found[place] for place, value in row.items() if place != pivot)
            found[pivot] = (sides[pivot] - known) / row[pivot]
    return found
