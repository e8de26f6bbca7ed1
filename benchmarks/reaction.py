"""Time of a reaction plan once its modules are loaded: the first, and those after it."""

from __future__ import annotations

import tomllib
from pathlib import Path
from statistics import median
from time import perf_counter

from figure import Figure

from ozonewright.bench.reaction import reaction_plan
from ozonewright.units import Kind, number

ROUNDS = 40
EXAMPLE = Path(__file__).parents[1] / "docs" / "examples" / "reaction.toml"


def main() -> list[Figure]:
    """Return the time of the first plan and the median and longest of the next ones."""
    table = tomllib.loads(EXAMPLE.read_text("utf-8"))
    times = []
    for _ in range(ROUNDS):
        start = perf_counter()
        reaction_plan(table)
        times.append(number(perf_counter() - start, Kind.TIME, "ms"))
    bound = 50.0
    return [
        Figure("first plan after import", times[0], "ms", at_most=bound),
        Figure("plan, median", median(times[1:]), "ms", at_most=bound),
        Figure("plan, longest", max(times[1:]), "ms", at_most=bound),
    ]
