"""What no bottle does: a bubble larger than it is, gas that is more ozone than any."""

from __future__ import annotations

import numpy as np

from ozonewright.errors import OutOfBounds
from ozonewright.physics.liquid.swarm import Column
from ozonewright.questions.absorber.model import Stream, section_of
from ozonewright.questions.absorber.passing import as_array
from ozonewright.questions.absorber.train import Bottle
from ozonewright.units import Kind, number

MOST = 0.25
"""Ozone in the gas above which no bench answer is given: it is far inside the explosive range."""


def check_gas(gas: Stream) -> None:
    """Refuse more ozone than a bench generator makes."""
    share = float(as_array(gas.ozone / gas.gas)[0])
    if not 0.0 < share < MOST:
        raise OutOfBounds(
            "more ozone than any bench generator makes at this flow", where="output",
            got=f"{100.0 * share:.3g} vol%",
            fix="Check the units of output and flow: g/h and NL/min.",
        )  # fmt: skip


def check_bubbles(bottles: tuple[Bottle, ...], columns: list[Column]) -> None:
    """Refuse bubbles larger than their bottle, or than its depth."""
    for bottle, made in zip(bottles, columns, strict=True):
        bubble = float(as_array(made.bubble)[0])
        width = 2.0 * (section_of(bottle) / np.pi) ** 0.5
        told = f"{number(bubble, Kind.LENGTH, 'mm'):.3g} mm"
        if bubble >= width:
            raise OutOfBounds(
                f"a bubble larger than {bottle.name}", where=bottle.place, got=told,
                fix=f"The bottle is {number(width, Kind.LENGTH, 'mm'):.3g} mm wide: check bubble, "
                "bore, volume and depth.",
            )  # fmt: skip
        if bubble >= bottle.depth.value:
            raise OutOfBounds(
                f"a bubble larger than the depth in {bottle.name}", where=f"{bottle.place}.depth",
                got=told, fix="Put the sparger deeper, or check the unit of the depth.",
            )  # fmt: skip
