"""Voltage and charge of a discharge tube over time, as an oscilloscope wrote them down."""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Loop:
    """Two channels in order of time; arrays of floats, for there are many."""

    times: array[float]
    """Since the first sample. [s]"""
    voltages: array[float]
    """As recorded: times the probe's ratio it is the voltage at the tube. [V]"""
    seconds: array[float]
    """Voltage of the sense capacitor in V, or charge in C."""
    of: Literal["sense", "charge"]
    """What the second channel is."""
