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
) -> SeriesRun:
    exact = truth(t, start, on, iodide)
    u = 0.1 + 0.004 * exact
    mass = exact * (1.0 + 0.005 * stream.standard_normal()) + u * stream.standard_normal()
    return SeriesRun(
        "x", t, mass * MG, u * MG, 1.0, on, start if on else None, 1200.0,  # type: ignore[arg-type]
        iodide_times=iodide, acid_times=acid, guessed=False,
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
        plain = next(row for row in found.next if row.change in ("", "iodide", "acid"))
        assert plain.on_time is not None
        more = {plain.change: 3.0} if plain.change else {}
        runs.append(
            read(truth, plain.on_time, stream, plain.start, plain.discharge == "on", **more)
        )
    assert found.verdict in names
