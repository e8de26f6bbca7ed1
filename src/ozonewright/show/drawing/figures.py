"""The numbers of the drawing as text."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.show.drawing.layout import Item
from ozonewright.show.drawing.readout import Readout
from ozonewright.show.numbers import quantity
from ozonewright.units import Kind, number

SMALL = 0.05
"""kPa below which a loss is not told by number."""


def kpa(pressure: float) -> str:
    """Return a pressure in kPa, as many decimals as a water gauge shows."""
    shown = number(pressure, Kind.PRESSURE_DIFFERENCE, "kPa")
    text = f"{shown:.1f}" if abs(shown) < 99.95 else f"{shown:.0f}"
    return "0.0" if text == "-0.0" else text.replace("-", "\u2212")


def flow_text(flow: float) -> str:
    """Return a flow."""
    return quantity(flow, Kind.NORMAL_FLOW, "NL/min", figures=3)


def concentration_text(value: float) -> str:
    """Return a concentration without its unit."""
    shown = number(value, Kind.NORMAL_CONCENTRATION, "g/Nm3")
    if 0.0 < shown < 0.005:
        return "< 0.01"
    return f"{shown:.1f}" if shown >= 0.995 else f"{shown:.2f}"


def pressure_in(item: Item, readout: Readout) -> float | None:
    """Return the gauge pressure where gas comes into an item."""
    return readout.pressure.get(item.parts[0].name)


def drop(item: Item, readout: Readout) -> float | None:
    """Return what is lost in an item, its sparger included."""
    found = [readout.drop.get(part.name) for part in item.parts]
    known = [one for one in found if one is not None]
    return sum(known) if known else None


def flow_of(item: Item, readout: Readout) -> float | None:
    """Return the flow through an item."""
    return readout.flow.get(item.parts[-1].name)


def behind(item: Item, readout: Readout) -> float | None:
    """Return the concentration behind an item, where it was measured."""
    return readout.concentration.get(item.parts[-1].name)


def is_bottleneck(item: Item, readout: Readout) -> bool:
    """Return whether this is the part that costs most flow."""
    return any(part.name == readout.bottleneck for part in item.parts)


def loses_most(item: Item, readout: Readout) -> bool:
    """Return whether this is the part that loses most pressure."""
    return any(part.name == readout.largest for part in item.parts)


def flow_is_news(items: Sequence[Item], number: int, flow: float, readout: Readout) -> bool:
    """Return whether the flow stands at this item: at a supplier, and where it changes."""
    earlier = [flow_of(items[i], readout) for i in items[number].before]
    known = [one for one in earlier if one is not None]
    if not items[number].before:
        return True
    return bool(known) and all(abs(flow - one) > 0.02 * max(abs(flow), abs(one)) for one in known)
