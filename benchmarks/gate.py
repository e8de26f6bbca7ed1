"""The whole gate of a full rig, a room and a reaction, ten thousand rooms drawn."""

from __future__ import annotations

import sys
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

from figure import Figure

from ozonewright.bench.gate import DRAWS, ask

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))
from unit.gate_world import world

ROUNDS = 30


def main() -> list[Figure]:
    """Return the figure of the issue about the gate."""
    table = world()
    ask(table["rig"], table["room"], table["reaction"])
    clock, processor = [], []
    for _ in range(ROUNDS):
        start, began = perf_counter(), process_time()
        ask(table["rig"], table["room"], table["reaction"])
        clock.append(perf_counter() - start)
        processor.append(process_time() - began)
    words = f"gate with {DRAWS} rooms, median of {ROUNDS}"
    return [
        Figure(f"{words}, processor time", 1e3 * median(processor), "ms", at_most=100.0),
        Figure(f"{words}, by the clock", 1e3 * median(clock), "ms"),
    ]
