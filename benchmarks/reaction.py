"""Time of a reaction plan once its modules are loaded: the first, and those after it.

The bound is on processor time, which other work on the machine does not stretch; the time by the
clock is told beside it.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

from figure import Figure

from ozonewright.bench.reaction import reaction_plan
from ozonewright.units import Kind, number

ROUNDS = 40
BOUND = 50.0
RIG = Path(__file__).parents[1] / "src" / "ozonewright" / "demo" / "rigs" / "workshop.toml"
EXAMPLE = Path(__file__).parents[1] / "docs" / "examples" / "reaction.toml"


def main() -> list[Figure]:
    """Return the time of the first plan and the median and longest of the next ones."""
    table = tomllib.loads(EXAMPLE.read_text("utf-8"))
    busy, clock = [], []
    for _ in range(ROUNDS):
        start, began = process_time(), perf_counter()
        reaction_plan(table)
        busy.append(number(process_time() - start, Kind.TIME, "ms"))
        clock.append(number(perf_counter() - began, Kind.TIME, "ms"))
    told = {**table, "gas": {"feed": "oxygen", "flow": "0.80 NL/min"}}
    rig = tomllib.loads(RIG.read_text("utf-8"))
    course = []
    for _ in range(2):
        start = process_time()
        reaction_plan(told, rig=rig)
        course.append(number(process_time() - start, Kind.TIME, "ms"))
    return [
        Figure("first plan after import, processor", busy[0], "ms", at_most=BOUND),
        Figure("plan, median, processor", median(busy[1:]), "ms", at_most=BOUND),
        Figure("plan, longest, processor", max(busy[1:]), "ms", at_most=BOUND),
        Figure("first plan after import, by the clock", clock[0], "ms"),
        Figure("plan, median, by the clock", median(clock[1:]), "ms"),
        Figure("first plan with marks of a simulated run, processor", course[0], "ms"),
        Figure("the same plan again, processor", course[1], "ms"),
    ]
