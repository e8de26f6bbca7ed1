"""Records of a discharge tube, from two capacitors stepped through time: no formula of ours.

The gap takes its share of every step of voltage until it stands at the gap voltage; then it burns,
keeps that voltage, and the whole step falls on the dielectric.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
DIELECTRIC, GAP = 200e-12, 50e-12
CELL = 40e-12
"""In series, by hand: 200 × 50/(200 + 50) pF."""
GAP_VOLTAGE, PEAK = 3e3, 8e3
FREQUENCY = 1e3


def tube(
    cycles: float, samples: int = 1000, form: str = "sine", peak: float = PEAK
) -> tuple[Array, Array, Array]:
    """Return time, voltage and charge of some cycles after the tube has settled."""
    lead = 2
    turns = np.arange(int((cycles + lead) * samples) + 1) / samples
    wave = np.sin(2.0 * np.pi * turns)
    if form == "triangle":
        wave = 2.0 / np.pi * np.arcsin(wave)
    voltage = peak * wave
    charges = charges_of(voltage)
    kept = slice(lead * samples, None)
    return turns[kept] / FREQUENCY - lead / FREQUENCY, voltage[kept], charges[kept]


def charges_of(voltage: Array) -> Array:
    """Return the charge of the tube at each step of a voltage that begins at nought."""
    gap = charge = 0.0
    charges = np.empty_like(voltage)
    charges[0] = 0.0
    for place, step in enumerate(np.diff(voltage), start=1):
        wanted = gap + step * DIELECTRIC / (DIELECTRIC + GAP)
        held = min(max(wanted, -GAP_VOLTAGE), GAP_VOLTAGE)
        charge += DIELECTRIC * (step - (held - gap))
        gap = held
        charges[place] = charge
    return charges


def record(
    cycles: float = 12,
    samples: int = 400,
    *,
    ratio: float = 1000.0,
    sense: float = 100e-9,
    noise: float = 0.01,
    seed: int = 1,
    bits: int = 8,
) -> str:
    """Return the CSV of an oscilloscope: voltage by a probe, charge by a capacitor, in steps."""
    rng = np.random.default_rng(seed)
    time, voltage, charge = tube(cycles, samples)
    rows = []
    for wave in ((voltage + charge / sense) / ratio, charge / sense):
        top = float(np.max(np.abs(wave)))
        step = 2.0 * 1.25 * top / 2**bits
        rows.append(np.round((wave + rng.normal(0.0, noise * top, len(wave))) / step) * step)
    lines = (f"{t:.9g},{v:.6g},{s:.6g}" for t, v, s in zip(time, *rows, strict=True))
    return "time (s),voltage (V),sense (V)\n" + "\n".join(lines) + "\n"
