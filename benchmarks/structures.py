"""Products and ozone demand of a thousand substrates, and the drawing of one.

The substrates are made from chains, rings and groups by counting, so that no two are alike.
"""

from __future__ import annotations

import subprocess
import sys
from itertools import product
from statistics import median
from time import perf_counter

from figure import Figure

from ozonewright.questions.reaction.structure import products, read_substrate
from ozonewright.show.structure_drawing import substrate_drawing

GROUPS = ("C", "CC", "C(C)C", "CCOC(C)=O", "CC#N", "c5ccc(OC)cc5", "C6CCCC6", "CCCl", "CC(=O)OC",
          "CCSC")  # fmt: skip
FRAMES = ("C({0})=C{1}", "CC({0})=CC{1}", "C1({0})=C({1})CCC1", "C({0})=CCC=C{1}",
          "C({0})=CC(=O)C{1}", "CC({0})=C(C){1}", "C({0})=Cc1ccc({1})cc1", "C({0})#CC{1}",
          "COC({0})=C{1}", "C=C({0})CCC(C)=C{1}")  # fmt: skip


def main() -> list[Figure]:
    """Return the figures of the issue about reactions."""
    substrates = [frame.format(one, two) for frame, one, two in product(FRAMES, GROUPS, GROUPS)]
    assert len(set(substrates)) == 1000
    start = perf_counter()
    for smiles in substrates:
        substrate = read_substrate(smiles)
        assert products(substrate, "reductive")
        assert substrate.demand.full
    thousand = perf_counter() - start
    times = []
    for smiles in substrates[::20]:
        start = perf_counter()
        substrate_drawing(read_substrate(smiles))
        times.append(perf_counter() - start)
    fresh = []
    for _ in range(5):
        start = perf_counter()
        subprocess.run(
            [sys.executable, "-c", "import ozonewright.questions.reaction.structure"], check=True
        )
        fresh.append(perf_counter() - start)
    return [
        Figure("products and demand of 1000 substrates", thousand, "s", at_most=3.0),
        Figure("drawing of a substrate, median", 1e3 * median(times), "ms"),
        Figure("fresh process that loads the structures, median", 1e3 * median(fresh), "ms"),
    ]
