"""From a record, and perhaps a blank below ignition, to the power that the gas gets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi

from ozonewright.errors import Inconsistent
from ozonewright.questions.power.recorded import Recorded, recorded
from ozonewright.questions.power.shape import Shape
from ozonewright.records.loop import Loop
from ozonewright.results import Note
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

DEGREE = pi / 180.0
LARGE_ANGLE = 0.1
"""Radians beyond which a blank is no blank: it burns, or the channels are far apart."""
SAME_FREQUENCY = 0.1


@dataclass(frozen=True, slots=True)
class MeasuredLoop:
    """What a record tells; powers and shapes at the ratios stated, whose doubt is kept apart."""

    power: Measured
    """With the scatter of its cycles alone. [W]"""
    reactive: float
    """Power that goes to and fro. [W]"""
    probe: Measured
    capacitor: Measured | None
    """None where the record holds charge."""
    angle: Measured | None
    """By which the blank's channels are apart, with what leaks and warms without discharge."""
    frequency: float
    cycles: int
    shape: Shape
    per_degree: float
    """Change of the power by one degree of phase between the channels, over the power."""
    notes: tuple[Note, ...] = ()


def measured_loop(
    record: Loop,
    probe: Measured,
    capacitor: Measured | None,
    *,
    blank: Loop | None = None,
    flat_topped: bool = False,
) -> MeasuredLoop:
    """Return what a record tells of the power, or refuse it with what to mend."""
    found = recorded(record, probe, capacitor, flat_topped=flat_topped)
    angle, notes = None, found.notes
    if blank is not None:
        without = recorded(blank, probe, capacitor, flat_topped=flat_topped)
        angle = _angle(without)
        notes = (*notes, *_of_blank(found, without, angle))
    taken = angle.value * found.reactive if angle is not None else 0.0
    power = found.power.value - taken
    if power <= 0.0:
        raise Inconsistent(
            "the loop gives energy back instead of taking it",
            where="loop",
            got=f"{power:.3g} W",
            fix="One channel lags behind the other, or they are of two instruments: record both "
            "on one time base, with short leads.",
        )
    return MeasuredLoop(
        power=found.power,
        reactive=found.reactive,
        probe=probe,
        capacitor=capacitor,
        angle=angle,
        frequency=found.frequency,
        cycles=found.cycles,
        shape=found.shape,
        per_degree=found.reactive * DEGREE / power,
        notes=notes,
    )


def _angle(without: Recorded) -> Measured:
    """Return the angle of a record below ignition: its power over what goes to and fro."""
    angle = without.power.value / without.reactive
    if abs(angle) > LARGE_ANGLE:
        raise Inconsistent(
            "the blank is no blank: it takes energy as a discharge does",
            where="blank",
            got=f"{angle / DEGREE:.1f} degrees between its channels",
            fix="Record it below ignition, nothing glowing, with the same leads.",
        )
    return Measured(
        angle,
        without.power.u / without.reactive,
        "phase of the blank",
        Kind.DIMENSIONLESS,
        dof=without.power.dof,
        basis="repeats",
    )


def _of_blank(found: Recorded, without: Recorded, angle: Measured) -> Iterator[Note]:
    yield Note(
        "power-blank",
        "advice",
        {
            "angle": angle.value / DEGREE,
            "u": angle.u / DEGREE,
            "power": angle.value * found.reactive,
        },
    )
    if abs(without.frequency / found.frequency - 1.0) > SAME_FREQUENCY:
        values = {"blank": without.frequency, "loop": found.frequency}
        yield Note("power-blank-frequency", values=values)
