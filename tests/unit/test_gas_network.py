"""Networks against hand solutions and against a solver that shares nothing with ours."""

from __future__ import annotations

import random
from math import inf, pi

import numpy as np
import pytest
from scipy.optimize import root

from ozonewright.errors import NotConverged
from ozonewright.physics.gas.network import Branch, Network, Solution, solve
from ozonewright.physics.gas.network.solve import _System
from ozonewright.physics.gas.parts.controller import Controller
from ozonewright.physics.gas.parts.law import Gas, Law
from ozonewright.physics.gas.parts.supply import Held, Pump, Supply, ThroughValve
from ozonewright.physics.gas.parts.threshold import Threshold
from ozonewright.physics.gas.parts.tube import Tube
from ozonewright.physics.gas.parts.valve import Valve
from ozonewright.references.constants import M_AIR, R

AMBIENT = 101325.0
AIR = Gas(M_AIR, 18.21e-6, 293.15)
End = int | float | Supply


def branch(head: End, tail: int | float, *laws: Law, shut: bool = False) -> Branch:
    return Branch(laws, (AIR,) * len(laws), tail, head, AIR, shut)


def network(junctions: int, *branches: Branch) -> Network:
    return Network(branches, junctions, 1e-3, AMBIENT)


def poiseuille(flow: float, bore: float, length: float) -> float:
    """Return the fall of p squared in a laminar tube."""
    return 256.0 * AIR.viscosity * length * flow * R * AIR.temperature / (pi * bore**4)


def balance(net: Network, found: Solution) -> list[float]:
    sums = [0.0] * net.junctions
    for one, flow in zip(net.branches, found.flows, strict=True):
        if isinstance(one.tail, int):
            sums[one.tail] += flow
        if isinstance(one.head, int):
            sums[one.head] -= flow
    return sums


def test_two_tubes_in_series_by_hand() -> None:
    found = solve(
        network=network(1, branch(Held(AMBIENT + 2e3), 0, Tube(0.002, 1.0)),
                        branch(0, AMBIENT, Tube(0.003, 1.0)))
    )  # fmt: skip
    flow = found.flows[0]
    assert found.flows[1] == pytest.approx(flow, rel=1e-12)
    fall = poiseuille(flow, 0.002, 1.0) + poiseuille(flow, 0.003, 1.0)
    assert fall == pytest.approx((AMBIENT + 2e3) ** 2 - AMBIENT**2, rel=2e-3)
    # resistances go with the fourth power of the bore: 81/97 of the fall is in the thin one
    middle = AMBIENT**2 + ((AMBIENT + 2e3) ** 2 - AMBIENT**2) * 16.0 / 97.0
    assert found.pressures[0] == pytest.approx(middle**0.5, rel=1e-5)


def test_two_tubes_in_parallel_by_hand() -> None:
    found = solve(
        network=network(1, branch(Held(AMBIENT + 500.0), 0), branch(0, AMBIENT, Tube(0.002, 1.0)),
                        branch(0, AMBIENT, Tube(0.001, 1.0)))
    )  # fmt: skip
    whole, wide, thin = found.flows
    assert whole == pytest.approx(wide + thin, rel=1e-12)
    assert wide / thin == pytest.approx(16.0, rel=1e-2)


def test_the_line_of_the_bench_by_hand() -> None:
    # 18 (1 - q/3) = 1.37 + 1 + 2.9 + 1.468 kPa, q = 1.877 L/min of room air
    laws = (Tube(0.002, 1.0), Threshold(1000.0), Threshold(2900.0), Threshold(1468.4))
    pump = Pump(((0.0, 5e-5), (18e3, 0.0)), AMBIENT, 293.15)
    found = solve(network=network(0, branch(pump, AMBIENT, *laws)))
    litres = found.flows[0] * R * 293.15 / AMBIENT * 6e4
    assert litres == pytest.approx(1.87, rel=0.01)
    assert found.imbalance == 0.0


def test_a_shut_valve_passes_nothing_and_a_weak_supplier_neither() -> None:
    for one in (
        branch(Held(AMBIENT + 1e4), AMBIENT, Tube(0.002, 1.0), shut=True),
        branch(Held(AMBIENT + 1e3), AMBIENT, Threshold(2e3)),
        branch(Pump(((0.0, 5e-5), (1e3, 0.0)), AMBIENT, 293.15), AMBIENT, Threshold(2e3)),
    ):
        assert solve(network=network(0, one)).flows == (0.0,)


def test_gas_does_not_go_back_into_the_weaker_supplier() -> None:
    found = solve(
        network=network(1, branch(Held(AMBIENT + 1e4), 0, Tube(0.002, 1.0)),
                        branch(Held(AMBIENT + 1e3), 0, Tube(0.002, 1.0)),
                        branch(0, AMBIENT, Tube(0.001, 1.0)))
    )  # fmt: skip
    assert found.flows[1] == 0.0
    assert found.flows[0] == pytest.approx(found.flows[2], rel=1e-12)


def test_gas_goes_either_way_through_a_bridge() -> None:
    def bridge(swapped: bool) -> float:
        bores = (0.002, 0.003) if swapped else (0.003, 0.002)
        found = solve(
            network=network(3, branch(Held(AMBIENT + 5e3), 2), branch(2, 0, Tube(bores[0], 1.0)),
                            branch(2, 1, Tube(bores[1], 1.0)), branch(0, 1, Tube(0.002, 0.1)),
                            branch(0, AMBIENT, Tube(0.002, 1.0)),
                            branch(1, AMBIENT, Tube(0.002, 1.0)))
        )  # fmt: skip
        return found.flows[3]

    assert bridge(False) > 0.0
    assert bridge(True) == pytest.approx(-bridge(False), rel=1e-9)


def test_a_controller_holds_its_setting_while_it_can() -> None:
    laws = (Controller(5e-4, 1e3), Tube(0.002, 1.0))
    strong = solve(network=network(0, branch(Held(AMBIENT + 5e4), AMBIENT, *laws)))
    assert strong.flows == (5e-4,)
    weak = solve(network=network(0, branch(Held(AMBIENT + 5e2), AMBIENT, *laws)))
    assert 0.0 < weak.flows[0] < 5e-4
    dial = Held(AMBIENT + 5e4, most=3e-4)
    assert solve(network=network(0, branch(dial, AMBIENT, Tube(0.002, 1.0)))).flows == (3e-4,)
    assert branch(dial, AMBIENT, *laws).most == 3e-4


def test_a_state_to_begin_with_saves_rounds() -> None:
    net = network(0, branch(Held(AMBIENT + 5e3), AMBIENT, Tube(0.002, 1.0)))
    first = solve(network=net)
    again = solve(network=net, start=first.state)
    assert again.rounds == 0
    assert again.flows == first.flows


def test_no_solution_is_told() -> None:
    class Odd:
        one_way, most = False, inf

        def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
            return outlet + 2.0 * AMBIENT + 1e6 * (flow - 1e-3) ** 2

    with pytest.raises(NotConverged, match="residual"):
        solve(network=network(0, branch(AMBIENT, AMBIENT, Odd())))


def random_network(number: int) -> Network:
    """Return a network of pumps, stores, tubes and one-way parts that has flow in it."""
    pick = random.Random(number)
    junctions = pick.randint(2, 6)

    def laws() -> tuple[Law, ...]:
        found: list[Law] = [
            Tube(pick.choice([0.0016, 0.002, 0.003, 0.004]), pick.uniform(0.1, 2.0))
            for _ in range(pick.randint(1, 3))
        ]
        if pick.random() < 0.3:
            found.append(Threshold(pick.uniform(100.0, 2000.0)))
        return tuple(found)

    def supply() -> Supply:
        if pick.random() < 0.6:
            shut_off = pick.uniform(1e4, 3e4)
            return Pump(((0.0, pick.uniform(2e-5, 1e-4)), (shut_off, 0.0)), AMBIENT, 293.15)
        return ThroughValve(AMBIENT + 5e4, pick.uniform(2e-4, 2e-3), AMBIENT)

    branches = [branch(supply(), pick.randrange(junctions), *laws()) for _ in range(3)]
    branches += [branch(pick.randrange(j), j, *laws()) for j in range(1, junctions)]
    branches += [branch(*pick.sample(range(junctions), 2), *laws()) for _ in range(2)]
    branches += [branch(pick.randrange(junctions), AMBIENT, *laws()) for _ in range(2)]
    return network(junctions, *branches)


def independent(net: Network, near: Solution) -> tuple[np.ndarray, np.ndarray]:
    """Solve by another formulation and another method (hybrid Powell of scipy).

    Unknowns are the flow of every branch and the pressure of every junction. A one-way branch is a
    complementarity of Fischer and Burmeister. Friction is written out again from 64/Re and
    Haaland's first guess to Colebrook's equation, so nothing of our laws is called.
    """

    def factor(reynolds: float, rough: float) -> float:
        if reynolds <= 2040.0:
            return 64.0 / max(reynolds, 1e-12)
        turbulent = max(reynolds, 4000.0)
        x = -1.8 * np.log10((rough / 3.7) ** 1.11 + 6.9 / turbulent)
        for _ in range(30):
            x = -2.0 * np.log10(rough / 3.7 + 2.51 * x / turbulent)
        low = 64.0 / 2040.0
        return low + (x**-2 - low) * (min(reynolds, 4000.0) - 2040.0) / 1960.0

    def needed(one: Branch, flow: float, behind: float) -> float:
        p = behind
        laws = one.laws if flow < 0.0 else one.laws[::-1]
        for law in laws:
            if isinstance(law, Threshold):
                p += law.opening
                continue
            assert isinstance(law, Tube)
            n = abs(flow)
            mass_flux = n * M_AIR / (pi * law.bore**2 / 4.0)
            reynolds = mass_flux * law.bore / AIR.viscosity
            loss = factor(reynolds, 1.5e-6 / law.bore) * law.length / law.bore if n else 0.0
            term = mass_flux**2 * R * 293.15 / M_AIR
            p2, p1 = p, p
            for _ in range(50):
                p1 = np.sqrt(p2**2 + term * (loss + 2.0 * np.log(p1 / p2)))
            p = p1
        return p + 1e-7 * AMBIENT * abs(flow) / 1e-3

    def head(one: Branch, flow: float, pressures: np.ndarray) -> float:
        if isinstance(one.head, int):
            return pressures[one.head]
        if isinstance(one.head, Pump):
            (_, free), (shut_off, _) = one.head.curve
            return AMBIENT + shut_off * (1.0 - flow * R * 293.15 / AMBIENT / free)
        assert isinstance(one.head, ThroughValve)
        span = one.head.pressure**2 - AMBIENT**2
        share = flow / one.head.open_flow
        if share > 1.0:
            return AMBIENT - span / AMBIENT * (share - 1.0)
        return np.sqrt(one.head.pressure**2 - span * share**2)

    count = len(net.branches)

    def equations(x: np.ndarray) -> np.ndarray:
        flows, pressures = x[:count] * 1e-3, x[count:] * AMBIENT
        found, sums = [], np.zeros(net.junctions)
        for one, flow in zip(net.branches, flows, strict=True):
            tail = pressures[one.tail] if isinstance(one.tail, int) else one.tail
            one_way = one.least == 0.0
            n = max(flow, 0.0) if one_way else flow
            if n < 0.0:
                gap = needed(one, n, head(one, n, pressures)) - tail
            else:
                gap = head(one, n, pressures) - needed(one, n, tail)
            a, b = flow / 1e-3, -gap / AMBIENT
            found.append(a + b - np.sqrt(a * a + b * b + 1e-24) if one_way else gap / AMBIENT)
            if isinstance(one.tail, int):
                sums[one.tail] += flow / 1e-3
            if isinstance(one.head, int):
                sums[one.head] -= flow / 1e-3
        return np.array([*found, *sums])

    # Beside the answer, so that the far solver is not sent off; its equations do not know ours.
    begin = np.array([*(np.array(near.flows) * 1e3), *(np.array(near.pressures) / AMBIENT)])
    found = root(equations, begin * 1.02 + 1e-3, method="hybr", tol=1e-13)
    if np.max(np.abs(found.fun)) > 1e-8:
        found = root(equations, begin, method="lm", tol=1e-13)
    assert np.max(np.abs(found.fun)) < 1e-7
    return found.x[:count] * 1e-3, found.x[count:] * AMBIENT


@pytest.mark.parametrize("number", range(40))
def test_random_networks_agree_with_an_independent_solve(number: int) -> None:
    net = random_network(number)
    found = solve(network=net)
    assert found.imbalance <= 1e-10
    largest = max(abs(flow) for flow in found.flows)
    assert max(map(abs, balance(net, found))) <= 1e-10 * largest
    flows, pressures = independent(net, found)
    assert found.flows == pytest.approx(flows, rel=1e-5, abs=1e-6 * largest)
    # where nothing flows the pressure may be any between those that would open a way
    for junction in range(net.junctions):
        ends = [
            flow
            for one, flow in zip(net.branches, found.flows, strict=True)
            if junction in (one.tail, one.head)
        ]
        if max(map(abs, ends)) > 1e-6 * largest:
            assert found.pressures[junction] == pytest.approx(pressures[junction], rel=1e-6)


@pytest.mark.parametrize("number", range(100, 160))
def test_mass_balances_to_ten_figures(number: int) -> None:
    net = random_network(number)
    found = solve(network=net)
    largest = max(abs(flow) for flow in found.flows)
    assert max(map(abs, balance(net, found)), default=0.0) <= 1e-10 * largest


def hard_network(number: int) -> Network:
    """Return a network with capped legs, wide valves and stiff regulators beside thin tubes."""
    pick = random.Random(number)

    def law() -> Law:
        k = pick.random()
        if k < 0.6:
            bore = pick.choice([0.001, 0.002, 0.003, 0.004, 0.006])
            return Tube(bore, pick.uniform(0.05, 3.0), bends=pick.choice([0, 0, 3]))
        if k < 0.7:
            return Threshold(pick.uniform(200.0, 3000.0))
        if k < 0.8:
            return Threshold(pick.uniform(500.0, 4000.0), quadratic=pick.uniform(0.0, 1e11))
        if k < 0.9:
            return Valve(10.0 ** pick.uniform(-8.0, -5.0))
        if k < 0.93:
            return Controller(pick.uniform(1e-4, 2e-3), pick.uniform(0.0, 5000.0))
        return Tube(0.003, 0.5, ends=1.57)

    def leg(head: End, tail: int | float, count: int) -> Branch:
        laws = tuple(law() for _ in range(count))
        return branch(head, tail, *laws, shut=pick.random() < 0.03)

    def supply() -> Supply:
        k = pick.random()
        if k < 0.6:
            free, shut_off = pick.uniform(1e-5, 1e-4), pick.uniform(5e3, 3e4)
            return Pump(((0.0, free), (shut_off, 0.0)), AMBIENT, 293.15)
        if k < 0.8:
            return Held(AMBIENT + pick.uniform(1e4, 2e5))
        return ThroughValve(AMBIENT + 5e4, pick.uniform(2e-4, 2e-3), AMBIENT)

    junctions = pick.randint(2, 12)
    bridges, suppliers = pick.randint(0, 4), pick.randint(1, 4)
    branches = [
        leg(supply(), pick.randrange(junctions), pick.randint(1, 4)) for _ in range(suppliers)
    ]
    branches += [leg(pick.randrange(j), j, pick.randint(1, 4)) for j in range(1, junctions)]
    for _ in range(bridges):
        one, other = pick.sample(range(junctions), 2)
        branches.append(leg(one, other, pick.randint(1, 4)))
    branches += [
        leg(pick.randrange(junctions), AMBIENT, pick.randint(1, 4))
        for _ in range(max(1, junctions // 3))
    ]
    return network(junctions, *branches)


@pytest.mark.parametrize("number", [*range(60), 121, 700, 1028, 1362, 3275, 3488, 4194, 4730, 5477])
def test_hard_networks_are_found_and_balance(number: int) -> None:
    net = hard_network(number)
    found = solve(network=net)
    largest = max(abs(flow) for flow in found.flows)
    assert max(map(abs, balance(net, found))) <= 1e-10 * largest


def test_what_rounding_leaves_at_a_junction_is_spread_over_what_flows() -> None:
    net = network(1, branch(Held(AMBIENT + 1e3), 0), branch(0, AMBIENT), branch(0, AMBIENT))
    one, two, three = _System(net)._balanced([1.0, 0.7 + 3e-9, 0.0])
    # 0.3 is missing behind the junction: half of it from each of the two that flow
    assert one == pytest.approx(1.0 - 0.5 * (0.3 - 3e-9))
    assert one == two
    assert three == 0.0
