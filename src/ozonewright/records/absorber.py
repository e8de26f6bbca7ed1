"""What is asked of an absorber besides its rig."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class Asked:
    """Ozone and gas that come in, and what was measured of the slip."""

    output: Measured
    """Ozone per time. [mol/s]"""
    flow: Measured
    """Dry feed. [mol/s]"""
    flow_stated: bool
    """Whether it was typed; else the gas line was solved for it."""
    bubble: Measured | None = None
    """Seen, in place of the one worked out."""
    guard_share: Measured | None = None
    """Ozone of the last bottle over that of all."""
    slip_share: Measured | None = None
    """Ozone found behind the bottles over ozone sent in."""
