"""Linear equations of a network against numpy."""

from __future__ import annotations

import random

import numpy as np
import pytest

from ozonewright.physics.gas.network.sparse import sparse_solution


@pytest.mark.parametrize("number", range(20))
def test_a_network_of_resistances_is_what_numpy_finds(number: int) -> None:
    pick = random.Random(number)
    size = pick.randint(1, 12)
    matrix = np.diag([pick.uniform(0.01, 1.0) for _ in range(size)])
    for _ in range(2 * size):
        one, other = pick.randrange(size), pick.randrange(size)
        if one != other:
            along, back = pick.uniform(0.1, 1.0), pick.uniform(0.1, 1.0)
            matrix[one, other] -= along
            matrix[other, one] -= back
            matrix[one, one] += along
            matrix[other, other] += back
    right = [pick.uniform(-1.0, 1.0) for _ in range(size)]
    rows = [
        {place: float(matrix[row, place]) for place in range(size) if matrix[row, place]}
        for row in range(size)
    ]
    assert sparse_solution(rows=rows, right=right) == pytest.approx(np.linalg.solve(matrix, right))


def test_what_no_equation_tells_stays_as_it_is() -> None:
    rows = [{0: 2.0}, {1: 0.0}, {2: 0.0, 0: 0.0}]
    assert sparse_solution(rows=rows, right=[4.0, 1.0, 0.0]) == [2.0, 0.0, 0.0]
    assert sparse_solution(rows=[], right=[]) == []
