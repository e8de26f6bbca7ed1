"""What is known of the gas in the line, by the name of each part; SI."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Readout:
    """What the drawing tells besides the parts themselves; empty where nothing is known."""

    flow: Mapping[str, float] = field(default_factory=dict)
    """Dry gas through a part. [mol/s]"""
    pressure: Mapping[str, float] = field(default_factory=dict)
    """Gauge, where gas comes into a part. [Pa]"""
    drop: Mapping[str, float] = field(default_factory=dict)
    """Lost in a part. [Pa]"""
    bottleneck: str = ""
    """The part, supplier included, whose loss costs most flow."""
    largest: str = ""
    """The part that loses most pressure."""
    concentration: Mapping[str, float] = field(default_factory=dict)
    """Ozone behind a part, as far as it was measured. [kg/mol]"""
    caption: str = ""
