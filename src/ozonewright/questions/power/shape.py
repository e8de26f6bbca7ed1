"""The sides of a loop: capacitances and voltages, where it is a parallelogram at all."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ozonewright.physics.generator.loop import mean_cycle
from ozonewright.physics.generator.parallelogram import Sides, gap_voltage_of_sides, sides
from ozonewright.results import Note
from ozonewright.uncertain import Measured, repeats
from ozonewright.units import Kind

Array = NDArray[np.float64]
POINTS = 400
GROUPS = 8
"""Of cycles, whose shapes are compared."""
MOST_CYCLES = 400
APART = 1.2
"""Steep over flat slope below which there are no two kinds of side."""
ROUNDED = 0.02
"""What the straight sides miss, over the swing of charge, from which it is told."""
FACTS = {
    "dielectric": Kind.CAPACITANCE,
    "cell": Kind.CAPACITANCE,
    "gap_voltage": Kind.VOLTAGE,
    "peak": Kind.VOLTAGE,
}


@dataclass(frozen=True, slots=True)
class Shape:
    """What the sides tell, each with the scatter of its groups; SI."""

    voltage: Array
    """Of the mean cycle. [V]"""
    charge: Array
    corners: tuple[tuple[float, float], ...]
    """Of the parallelogram: bottom, first corner, top, second corner; empty where there is none."""
    facts: dict[str, Measured]
    notes: tuple[Note, ...] = ()


def shape_of(
    time: Array, voltage: Array, charge: Array, bounds: Array, good: NDArray[np.bool_]
) -> Shape:
    """Return the shape of the loop: of all its cycles, with the scatter of groups of them."""
    cycles = [(bounds[k], bounds[k + 1]) for k in np.flatnonzero(good)]
    cycles = cycles[:: 1 + len(cycles) // MOST_CYCLES]
    v, q = _mean(time, voltage, charge, cycles)
    both = _halves(v, q)
    whole = _facts(v, q, both)
    if whole is None:
        peak = 0.5 * float(np.ptp(v))
        facts = {"peak": Measured(peak, 0.0, "peak of the loop", Kind.VOLTAGE)}
        return Shape(v, q, (), facts, (Note("power-no-parallelogram"),))
    groups = [cycles[k::GROUPS] for k in range(min(GROUPS, len(cycles)))]
    found = [
        _facts(*mean, _halves(*mean)) for mean in (_mean(time, voltage, charge, g) for g in groups)
    ]
    spread = [one for one in found if one is not None]
    facts = {name: _measured(name, whole[name], [one[name] for one in spread]) for name in FACTS}
    missed = max(half.residual for half in both) / float(np.ptp(q))
    notes = (Note("power-rounded", values={"share": float(missed)}),) if missed > ROUNDED else ()
    return Shape(v, q, _corners(v, q, both), facts, notes)


def _measured(name: str, value: float, values: list[float]) -> Measured:
    kind, words = FACTS[name], f"{name.replace('_', ' ')} of the loop"
    if len(values) < 2:
        return Measured(value, 0.0, words, kind)
    spread = repeats(values, words, kind)
    return Measured(value, spread.u, words, kind, dof=spread.dof, basis="repeats")


def _mean(
    time: Array, voltage: Array, charge: Array, cycles: list[tuple[float, float]]
) -> tuple[Array, Array]:
    """Return the mean cycle, from its lowest voltage to its lowest voltage."""
    both = []
    for values in (voltage, charge):
        each = [
            mean_cycle(time=time, values=values, bounds=np.array(ends), points=POINTS + 1)[:-1]
            for ends in cycles
        ]
        both.append(np.mean(each, axis=0))
    first = int(np.argmin(both[0]))
    return np.roll(both[0], -first), np.roll(both[1], -first)


def _halves(v: Array, q: Array) -> tuple[Sides, Sides]:
    """Return the sides of the half cycle that rises, and of the one that falls."""
    top = int(np.argmax(v))
    down_v, down_q = np.append(v[top:], v[0]), np.append(q[top:], q[0])
    return (
        sides(voltage=v[: top + 1], charge=q[: top + 1]),
        sides(voltage=down_v, charge=down_q),
    )


def _facts(v: Array, q: Array, both: tuple[Sides, Sides]) -> dict[str, float] | None:
    """Return what the sides tell, or None where they are no parallelogram."""
    if any(half.flat <= 0.0 or half.steep < APART * half.flat for half in both):
        return None
    up, down = both
    gap = gap_voltage_of_sides(
        rising_voltage=up.corner_voltage,
        rising_charge=up.corner_charge,
        rising_slope=up.steep,
        falling_voltage=down.corner_voltage,
        falling_charge=down.corner_charge,
        falling_slope=down.steep,
        charge=0.5 * float(q.max() + q.min()),
    )
    return {
        "dielectric": float(0.5 * (up.steep + down.steep)),
        "cell": float(0.5 * (up.flat + down.flat)),
        "gap_voltage": float(gap),
        "peak": 0.5 * float(np.ptp(v)),
    }


def _corners(v: Array, q: Array, both: tuple[Sides, Sides]) -> tuple[tuple[float, float], ...]:
    """Return the four corners of the lines through both halves."""
    up, down = both
    ends = []
    for half, first, last in ((up, v[0], v.max()), (down, v.max(), v[0])):
        start = half.corner_charge + half.flat * (first - half.corner_voltage)
        stop = half.corner_charge + half.steep * (last - half.corner_voltage)
        ends.append((float(start), float(stop)))
    bottom, top = 0.5 * (ends[0][0] + ends[1][1]), 0.5 * (ends[0][1] + ends[1][0])
    return (
        (float(v[0]), bottom),
        (float(up.corner_voltage), float(up.corner_charge)),
        (float(v.max()), top),
        (float(down.corner_voltage), float(down.corner_charge)),
    )
