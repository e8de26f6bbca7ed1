"""The server killed with SIGKILL at random moments while one or two pages press."""

from __future__ import annotations

from pathlib import Path

import pytest

from ozonewright.bench.clock import BOOT
from web.bench_kills import pressed_through_kills

KILLS = 3


@pytest.mark.slow
@pytest.mark.parametrize("clients", [1, 2])
def test_nothing_is_lost_or_kept_twice_and_the_count_is_true(tmp_path: Path, clients: int) -> None:
    found = pressed_through_kills(tmp_path, KILLS, clients, seed=clients)
    assert found.pressed > KILLS
    assert (found.lost, found.twice, found.faults) == (0, 0, [])
    # each press is told to the millisecond, and its way takes a few: 20 ms for each at the most
    assert found.on_time == pytest.approx(found.truth, abs=0.02 * found.pressed)
    # a system that names its boots is known to have run on; elsewhere each start counts as a gap
    assert found.gap == 0 or not BOOT.exists()
