"""What more depth, smaller bubbles, less flow or another bottle would bring."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.liquid.in_a_row import in_series
from ozonewright.physics.liquid.swarm import Column
from ozonewright.questions.absorber.draws import Drawn
from ozonewright.questions.absorber.model import Change, Stream, stream
from ozonewright.questions.absorber.passing import Train, as_array, pass_through
from ozonewright.questions.absorber.result import CurveRow, WhatIf
from ozonewright.references.constants import M_O3
from ozonewright.units import Kind, size

CM = size(Kind.LENGTH, "cm")
MM = size(Kind.LENGTH, "mm")
DEPTHS = np.array([2.0, 4.0, 6.0, 8.0, 10.0, 12.5, 15.0, 17.5, 20.0, 25.0, 30.0, 40.0]) * CM
BUBBLES = np.array([0.5, 0.7, 1.0, 1.4, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0]) * MM
FLOWS = np.array([0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0, 3.0])
"""Times the flow there is, at the same output."""
STONE = 2.0 * MM
"""Bubble of a usual stone."""
DEEPER = 10.0 * CM
ALIKE = 1e-3
"""Changes of less than a tenth of a per cent point are none."""


def _plain(whole: Train) -> tuple[Train, Stream]:
    """Return the same bottles at the best estimates alone."""
    alone = replace(whole, drawn=Drawn(draws=0))
    return alone, stream(alone.asked, alone.drawn)


def _taken(columns: list[Column], gas: Stream) -> Real:
    return 1.0 - in_series(lefts=[one.left for one in pass_through(columns, gas)])


def curves(whole: Train, factor: float) -> Iterator[CurveRow]:
    """Yield the uptake of all bottles against depth, flow and bubble, the rest as it is."""
    alone, gas = _plain(whole)
    deep = as_array(_taken(alone.columns(gas, Change(depth=DEPTHS), factor), gas))
    for depth, taken in zip(DEPTHS, deep, strict=True):
        yield CurveRow(of="depth", depth=float(depth), efficiency=float(taken))
    flowing = replace(gas, gas=gas.gas * FLOWS)
    flows = as_array(_taken(alone.columns(flowing, None, factor), flowing))
    for flow, taken in zip(as_array(flowing.gas), flows, strict=True):
        yield CurveRow(of="flow", flow=float(flow), efficiency=float(taken))
    fine = as_array(_taken(alone.columns(gas, Change(bubble=BUBBLES), factor), gas))
    for bubble, taken in zip(BUBBLES, fine, strict=True):
        yield CurveRow(of="bubble", bubble=float(bubble), efficiency=float(taken))


def what_if(whole: Train, factor: float) -> Iterator[WhatIf]:
    """Yield changes and what each would bring, the best first."""
    alone, gas = _plain(whole)
    as_is = alone.columns(gas, None, factor)
    now = float(as_array(_taken(as_is, gas))[0])
    half = replace(gas, gas=gas.gas * 0.5)
    ways: dict[str, Real] = {
        "deeper": _taken([
            replace(one, depth=one.depth + DEEPER, volume=one.volume) for one in as_is
        ], gas),
        "another": _taken([*as_is, as_is[-1]], gas),
        "half flow": _taken(alone.columns(half, None, factor), half),
    }  # fmt: skip
    if any(float(as_array(one.bubble)[0]) > STONE for one in as_is):
        ways["stone"] = _taken(alone.columns(gas, Change(bubble=STONE), factor), gas)
    rows = [
        WhatIf(
            change=name,
            efficiency=float(as_array(taken)[0]),
            gain=float(as_array(taken)[0]) - now,
            slip=float(as_array(gas.ozone)[0] * (1.0 - as_array(taken)[0]) * M_O3),
        )
        for name, taken in ways.items()
    ]
    yield from sorted(rows, key=lambda row: -(row.gain or 0.0))
