"""A few worlds of known truth: following the advice names it; naming it wrongly never happens.

The worlds are sums made here, apart from the program's model; benchmarks/drift.py has hundreds.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from ozonewright.questions.drift import SeriesRun, drift

MG = 1e-6 / 47.997e-3
RATE = 11.0 / 60.0
"""mg/s"""
Truth = Callable[[float, str, bool, float], float]
"""What is read, in mg, from on-time, start, discharge and how much iodide there is."""


def blank(t: float, start: str, on: bool, iodide: float) -> float:
    return RATE * t * on + 7.0


def hold_up(t: float, start: str, on: bool, iodide: float) -> float:
    return RATE * (t - 25.0 * (start != "diverted")) * on


def settling(t: float, start: str, on: bool, iodide: float) -> float:
    excess = 0.5 * 100.0 * (1.0 - np.exp(-t / 100.0)) * (start == "cold")
    return RATE * (t + excess) * on


def spent(t: float, start: str, on: bool, iodide: float) -> float:
    return min(RATE * t, 60.0 * iodide) * on


def steady(t: float, start: str, on: bool, iodide: float) -> float:
    return RATE * t * on


def read(
    truth: Truth,
    t: float,
    stream: np.random.Generator,
    start: str = "cold",
    on: bool = True,
    iodide: float = 1.0,
    acid: float = 1.0,
    guard: bool = False,
) -> SeriesRun:
    exact = truth(t, start, on, iodide)
    u = 0.1 + 0.004 * exact
    mass = exact * (1.0 + 0.005 * stream.standard_normal()) + u * stream.standard_normal()
    return SeriesRun(
        "x", t, mass * MG, u * MG, 1.0, on, start if on else None, 1200.0,  # type: ignore[arg-type]
        iodide_times=iodide, acid_times=acid, guessed=False,
        # Nothing passes the first bottle: the guard bottle reads its noise.
        guard=0.1 * stream.standard_normal() * MG if guard else None,
        u_guard=0.1 * MG, bottles=2 if guard else 1,
    )  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize(
    ("truth", "names"),
    [
        (blank, {"blank-surplus"}),
        (hold_up, {"hold-up"}),
        (settling, {"warming", "cold-start", "carried-warming"}),
        (spent, {"trap-full", "iodide-spent"}),
        (steady, {"steady"}),
    ],
    ids=lambda one: getattr(one, "__name__", ""),
)
def test_following_the_advice_names_the_truth(truth: Truth, names: set[str]) -> None:
    stream = np.random.default_rng(11)
    runs = [read(truth, t, stream) for t in (120.0, 240.0, 480.0, 360.0)]
    for _ in range(4):
        found = drift(runs, order=True)
        if found.determined:
            break
        best = next(row for row in found.next if row.change != "flow")
        assert best.on_time is not None
        changed = best.change.split(" and ")
        runs.append(
            read(
                truth,
                best.on_time,
                stream,
                best.start,
                best.discharge == "on",
                iodide=3.0 if "iodide" in changed else 1.0,
                acid=3.0 if "acid" in changed else 1.0,
                guard=best.change == "guard",
            )
        )
    assert found.verdict in names
