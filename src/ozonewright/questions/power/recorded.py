"""From a record of both channels to energy, cycles and shape; what is refused, what is told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ozonewright.errors import Inconsistent, MissingValue, NotApplicable
from ozonewright.physics.generator.loop import (
    energy_per_cycle,
    independent_count,
    left_over_energy,
    reactive_power,
    rising_crossings,
    top_share,
    top_share_of_sine,
)
from ozonewright.questions.power.shape import Shape, shape_of
from ozonewright.records.loop import Loop
from ozonewright.results import Note
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

Array = NDArray[np.float64]
FEWEST_SAMPLES, FEW_SAMPLES = 20.0, 100.0
"""In a cycle: below the first a loop is refused, below the second it is told."""
GAP = 5.0
"""Usual distances between samples beyond which something is missing."""
CLIPPED, CLIPPED_SAMPLES = 3.0, 0.02
"""Times what a sine stands at its top, and share of all samples, from which a channel is cut."""
OPEN, DRIFTS = 0.05, 0.01
"""Charge that a cycle does not give back, over its swing: refused, and told."""
UNEVEN, MODULATED = 0.05, 0.10
"""Scatter of the periods, of the energies, over their mean."""
MAINS_HALF_WAVE = 0.010
"""Seconds; an unsmoothed supply is strong and weak as often as that (50 Hz)."""
LARGE_SENSE = 0.05
"""Voltage of the sense capacitor over that of the probe."""
COARSE = 40.0
"""Steps of a channel over its swing."""


@dataclass(frozen=True, slots=True)
class Recorded:
    """What a record says of both channels, at the ratios stated."""

    power: Measured
    """Mean over whole cycles, with their scatter alone; may have either sign. [W]"""
    reactive: float
    """Power that goes to and fro. [W]"""
    frequency: float
    cycles: int
    energy: float
    """Of a cycle. [J]"""
    shape: Shape
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class _Channels:
    time: Array
    voltage: Array
    charge: Array
    notes: tuple[Note, ...]


def recorded(
    record: Loop, probe: Measured, capacitor: Measured | None, *, flat_topped: bool = False
) -> Recorded:
    """Return what a record says, or refuse it with what to mend."""
    if not flat_topped:
        _refuse_cut("voltage", np.asarray(record.voltages))
        _refuse_cut(record.of, np.asarray(record.seconds))
    channels = _channels(record, probe, capacitor)
    bounds = rising_crossings(time=channels.time, voltage=channels.voltage)
    _refuse_short(channels.time, bounds)
    good = _whole(channels.time, bounds)
    energies = energy_per_cycle(
        time=channels.time, voltage=channels.voltage, charge=channels.charge, bounds=bounds
    )[good]
    periods = np.diff(bounds)[good]
    _refuse_open(channels, bounds)
    shape = shape_of(channels.time, channels.voltage, channels.charge, bounds, good)
    notes = _notes(record, channels, bounds, energies, periods)
    return Recorded(
        power=_mean_power(energies, periods),
        reactive=_reactive(shape, float(periods.mean())),
        frequency=float(1.0 / periods.mean()),
        cycles=len(energies),
        energy=float(energies.mean()),
        shape=shape,
        notes=(*channels.notes, *notes, *shape.notes),
    )


def _mean_power(energies: Array, periods: Array) -> Measured:
    """Return the power of all cycles, with the scatter of those that are independent."""
    over = left_over_energy(energies=energies, periods=periods)
    counted = independent_count(values=over) if len(over) > 2 else float(len(over))
    scatter = float(np.std(over, ddof=1) / periods.mean()) if len(over) > 1 else 0.0
    return Measured(
        float(energies.sum() / periods.sum()),
        scatter / counted**0.5,
        "cycles of the loop",
        Kind.POWER,
        dof=max(counted - 1.0, 1.0),
        basis="repeats",
    )


def _reactive(shape: Shape, period: float) -> float:
    time = np.linspace(0.0, period, len(shape.voltage) + 1)
    voltage, charge = (np.append(each, each[0]) for each in (shape.voltage, shape.charge))
    return reactive_power(time=time, voltage=voltage, charge=charge)


def _channels(record: Loop, probe: Measured, capacitor: Measured | None) -> _Channels:
    """Return voltage at the tube and charge, right way up."""
    time = np.asarray(record.times)
    voltage = probe.value * np.asarray(record.voltages)
    seconds = np.asarray(record.seconds)
    notes = []
    charge = seconds if capacitor is None else capacitor.value * seconds
    inverted = np.corrcoef(voltage, charge)[0, 1] < 0.0
    if inverted:
        charge, seconds = -charge, -seconds
        notes.append(Note("power-inverted", "advice"))
    if record.of == "sense":
        ratio = float(np.ptp(seconds) / np.ptp(voltage))
        if ratio > LARGE_SENSE:
            notes.append(Note("power-large-sense", values={"share": ratio}))
        voltage = voltage - seconds
    return _Channels(time, voltage, charge, tuple(notes))


def _refuse_cut(name: str, values: Array) -> None:
    """Refuse a channel that stands at its highest or lowest value as a cut one does."""
    if np.ptp(values) == 0.0:
        raise Inconsistent(
            "this channel does not move",
            where=f"loop: {name}",
            got=f"{values[0]:.4g} throughout",
            fix="Look at its lead and its range, and whether the discharge was on.",
        )
    share = max(float(top_share(values=values)), float(top_share(values=-values)))
    usual = float(top_share_of_sine(step=_step(values), swing=float(np.ptp(values))))
    if share > max(CLIPPED * usual, CLIPPED_SAMPLES):
        raise Inconsistent(
            "this channel looks cut off at its top or bottom",
            where=f"loop: {name}",
            got=f"{100.0 * share:.0f} % of the samples stand at one extreme",
            fix="Set a larger range and record again; if the wave truly stands still there, say "
            "that it is flat-topped.",
        )


def _step(values: Array) -> float:
    """Return the smallest difference that a channel shows."""
    steps = np.diff(np.unique(values))
    return float(np.min(steps[steps > 1e-9 * np.ptp(values)]))


def _refuse_short(time: Array, bounds: Array) -> None:
    if len(bounds) < 2:
        raise MissingValue(
            "the record holds less than a whole cycle",
            where="loop",
            got=f"{len(bounds)} rises through the middle",
            fix="Record five cycles or more, both channels at once.",
        )
    inside = int(np.sum((time >= bounds[0]) & (time <= bounds[-1]))) / (len(bounds) - 1)
    if inside < FEWEST_SAMPLES:
        raise NotApplicable(
            "too few samples in a cycle",
            where="loop",
            got=f"{inside:.0f}",
            fix="Record at a higher rate: a hundred samples in a cycle or more.",
        )


def _whole(time: Array, bounds: Array) -> NDArray[np.bool_]:
    """Return which cycles have no gap in them; at least one must."""
    steps = np.diff(time)
    after = np.flatnonzero(steps > GAP * np.median(steps))
    good = np.ones(len(bounds) - 1, dtype=bool)
    for place in after:
        good &= (bounds[1:] <= time[place]) | (bounds[:-1] >= time[place + 1])
    if not good.any():
        raise MissingValue(
            "every cycle of the record has a gap in it",
            where="loop",
            got=f"{len(after)} gaps",
            fix="Record both channels without a break for five cycles or more.",
        )
    return good


def _refuse_open(channels: _Channels, bounds: Array) -> None:
    lost = _lost(channels, bounds)
    if lost > OPEN:
        raise Inconsistent(
            "the loop does not close: a cycle does not give the charge back",
            where="loop",
            got=f"{100.0 * lost:.0f} % of the swing of charge left over in a cycle",
            fix="Is the second channel a capacitor's voltage, with a time constant far longer than "
            "a cycle, and is the discharge settled? A resistor's voltage is no charge.",
        )


def _lost(channels: _Channels, bounds: Array) -> float:
    """Return what a cycle leaves over of its charge, the mean of all cycles, over the swing."""
    at = np.interp(bounds, channels.time, channels.charge)
    return float(abs(np.diff(at).mean()) / np.ptp(channels.charge))


def _notes(
    record: Loop, channels: _Channels, bounds: Array, energies: Array, periods: Array
) -> Iterator[Note]:
    cycles, every = len(energies), len(bounds) - 1
    if cycles < every:
        yield Note("power-gaps", values={"left_out": every - cycles, "cycles": cycles})
    if cycles < 3:
        yield Note("power-few-cycles", values={"cycles": cycles})
    inside = periods.mean() / float(np.median(np.diff(channels.time)))
    if inside < FEW_SAMPLES:
        yield Note("power-few-samples", values={"samples": float(inside)})
    for name, values in (("voltage", record.voltages), (record.of, record.seconds)):
        steps = float(np.ptp(values)) / _step(np.asarray(values))
        if steps < COARSE:
            yield Note("power-coarse", values={"channel": name, "steps": steps})
    if (lost := _lost(channels, bounds)) > DRIFTS:
        yield Note("power-drifts", values={"share": lost})
    if cycles > 2:
        yield from _unsteady(energies, periods)
    span = float(bounds[-1] - bounds[0])
    if span < MAINS_HALF_WAVE and periods.mean() < 0.5 * MAINS_HALF_WAVE:
        yield Note("power-short-record", values={"span": span})


def _unsteady(energies: Array, periods: Array) -> Iterator[Note]:
    uneven = float(np.std(periods, ddof=1) / periods.mean())
    if uneven > UNEVEN:
        yield Note("power-uneven", values={"share": uneven})
    modulated = float(np.std(energies, ddof=1) / energies.mean())
    if modulated > MODULATED:
        yield Note("power-modulated", values={"share": modulated})
