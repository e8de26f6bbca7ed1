"""Gas lines: time of a bench line, time against parts, and a general network library beside.

The peer is pandapipes, which is no dependency: where it is absent its figures are left out and a
line says so. Both solve the same plain pipes in this process. The peer adds a rough-pipe term to
64/Re in laminar flow, so its laminar networks get a roughness of nothing; in turbulent flow both
take Colebrook's equation.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable
from importlib import import_module
from importlib.util import find_spec
from math import sqrt
from statistics import median
from time import perf_counter
from typing import Any, NamedTuple

from figure import Figure

from ozonewright.physics.gas.network import Branch, Network, solve
from ozonewright.physics.gas.parts.law import Gas
from ozonewright.physics.gas.parts.supply import Held, Pump
from ozonewright.physics.gas.parts.threshold import Threshold
from ozonewright.physics.gas.parts.tube import Tube
from ozonewright.references.constants import M_AIR, R

AMBIENT = 101325.0
PASCAL_IN_BAR = 1e5
AIR = Gas(M_AIR, 18.21e-6, 293.15)
ROUNDS = 15
NOTHING = 1e-200
"""A roughness so small that the peer's rough-pipe term vanishes. [mm]"""


class Plain(NamedTuple):
    """Plain pipes between junctions; junction 0 is held above the room, the last ones at it."""

    junctions: int
    vents: tuple[int, ...]
    pipes: tuple[tuple[int, int, float, float], ...]
    """From, to, bore and length."""
    gauge: float
    roughness: float


def plain(count: int, number: int, turbulent: bool) -> Plain:
    """Return a meshed network of so many pipes."""
    pick = random.Random(number)
    junctions = max(3, round(0.8 * count))
    bores = (0.10, 0.12, 0.15) if turbulent else (0.003, 0.004)
    lengths = (20.0, 60.0) if turbulent else (0.5, 2.0)
    pairs = [(pick.randrange(max(0, j - 4), j), j) for j in range(1, junctions)]
    while len(pairs) < count:
        one, other = sorted(pick.sample(range(junctions), 2))
        pairs.append((one, other))
    vents = tuple(range(junctions - max(1, junctions // 6), junctions))
    pipes = tuple((a, b, pick.choice(bores), pick.uniform(*lengths)) for a, b in pairs)
    gauge, rough = (300.0 * sqrt(count), 1.5e-6) if turbulent else (60.0 * sqrt(count), 0.0)
    return Plain(junctions, vents, pipes, gauge, rough)


def ours(net: Plain) -> Network:
    """Return the network as ours."""
    inner = [j for j in range(net.junctions) if j != 0 and j not in net.vents]
    place = {junction: number for number, junction in enumerate(inner)}

    def end(junction: int) -> int | float:
        if junction == 0:
            return AMBIENT + net.gauge
        return place.get(junction, AMBIENT)

    branches = [
        Branch((Tube(bore, length, net.roughness),), (AIR,), end(b), end(a), AIR)
        for a, b, bore, length in net.pipes
    ]
    guess = 3.0 if net.roughness else 1e-3
    return Network(branches, len(inner), guess, AMBIENT)


def theirs(net: Plain) -> tuple[Any, Callable[[], Any]]:
    """Return the network as the peer's, and its solver."""
    pp = import_module("pandapipes")
    fluids = import_module("pandapipes.properties.fluids")
    normal = AMBIENT * M_AIR / (R * 273.15)
    air = fluids.create_constant_fluid(
        "air", "gas", density=normal, viscosity=AIR.viscosity, heat_capacity=1006.0,
        molar_mass=M_AIR * 1e3, compressibility=1.0, der_compressibility=0.0,
    )  # fmt: skip
    found = pp.create_empty_network(fluid=air)
    nodes = [pp.create_junction(found, pn_bar=1.0, tfluid_k=293.15) for _ in range(net.junctions)]
    pp.create_ext_grid(found, nodes[0], p_bar=net.gauge / PASCAL_IN_BAR, t_k=293.15)
    for vent in net.vents:
        pp.create_ext_grid(found, nodes[vent], p_bar=0.0, t_k=293.15)
    for a, b, bore, length in net.pipes:
        pp.create_pipe_from_parameters(
            found, nodes[a], nodes[b], length_km=length * 1e-3, inner_diameter_mm=bore * 1e3,
            k_mm=net.roughness * 1e3 or NOTHING,
        )  # fmt: skip
    model = "colebrook" if net.roughness else "nikuradse"
    # the finest tolerance at which the peer still finds all of these networks
    close = (1e-5, 1e-5) if net.roughness else (1e-7, 1e-8)

    def run() -> None:
        pp.pipeflow(
            found, friction_model=model, tol_p=close[0], tol_m=close[1],
            max_iter_hyd=100, tolerance_colebrook=1e-8, mode="hydraulics",
        )  # fmt: skip

    return found, run


def seconds(act: Callable[[], object]) -> float:
    """Return the least time of an act: the machine may be busy with others."""
    act()
    times = []
    for _ in range(ROUNDS):
        start = perf_counter()
        act()
        times.append(perf_counter() - start)
    return min(times)


def line(parts: int) -> Network:
    """Return a line of a pump and so many parts less one."""
    laws = [Tube(0.004, 0.3) if n % 3 else Threshold(200.0) for n in range(parts - 1)]
    pump = Pump(((0.0, 5e-5), (300e3, 0.0)), AMBIENT, 293.15)
    return Network([Branch(tuple(laws), (AIR,) * len(laws), AMBIENT, pump, AIR)], 0, 1e-3, AMBIENT)


def tree(parts: int) -> Network:
    """Return tubes that split in two again and again, each a branch, from one regulator."""
    branches = [Branch((Tube(0.006, 0.3),), (AIR,), 0, Held(AMBIENT + 1e3), AIR)]
    junctions = parts // 2
    for n in range(1, parts):
        tail: int | float = n if n < junctions else AMBIENT
        branches.append(Branch((Tube(0.004, 0.3),), (AIR,), tail, (n - 1) // 2, AIR))
    return Network(branches, junctions, 1e-3, AMBIENT)


def compared(count: int, turbulent: bool) -> list[Figure]:
    """Return how much faster ours is on networks of so many pipes, and how far flows differ."""
    ratios, differences = [], []
    for number in range(4):
        net = plain(count, number, turbulent)
        own = ours(net)
        peer, run = theirs(net)
        ratios.append(seconds(run) / seconds(lambda own=own: solve(network=own)))
        flows = [flow * M_AIR for flow in solve(network=own).flows]
        other = peer.res_pipe["mdot_from_kg_per_s"].tolist()
        largest = max(map(abs, flows))
        apart = max(abs(a - b) for a, b in zip(flows, other, strict=True)) / largest
        differences.append(100.0 * apart)
    kind = "turbulent" if turbulent else "laminar"
    return [
        Figure(f"faster than the peer, {count} {kind} pipes", median(ratios), at_least=5.0),
        Figure(f"flows apart, {count} {kind} pipes", max(differences), "%", at_most=0.5),
    ]


def main() -> list[Figure]:
    """Return the figures of the issue about gas lines."""
    figures = [
        Figure("a line of 10 parts", 1e3 * seconds(lambda: solve(network=line(10))), "ms", 5.0)
    ]
    for count in (20, 50, 100, 200):
        net, split = line(count), tree(count)
        figures += [
            Figure(f"a line of {count} parts", 1e3 * seconds(lambda n=net: solve(network=n)), "ms"),
            Figure(
                f"a tree of {count} parts", 1e3 * seconds(lambda n=split: solve(network=n)), "ms"
            ),
        ]
    if find_spec("pandapipes") is None:
        print("pandapipes is not installed: its figures are left out.", file=sys.stderr)
        return figures
    for count in (10, 50):
        for turbulent in (False, True):
            figures += compared(count, turbulent)
    return figures
