"""What the answer to a gas line holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ozonewright.results import Result, Row, fact, listing, part, quantity
from ozonewright.units import Kind


def _flow(words: str, stem: str = "flow") -> Any:
    return quantity(Kind.NORMAL_FLOW, "NL/min", words, stem=stem, exact=True)


def _room_air(words: str) -> Any:
    return quantity(
        Kind.VOLUME_FLOW, "L/min", words, stem="flow", exact=True, worded="l_per_min_ambient"
    )


def _gauge(words: str, stem: str) -> Any:
    return quantity(
        Kind.PRESSURE_DIFFERENCE, "kPa", words, stem=stem, exact=True, worded="kpa_gauge"
    )


@dataclass(frozen=True, kw_only=True)
class PartRow(Row):
    """One part with what flows through it."""

    name: str = fact("part", "")
    kind: str = fact("kind", "")
    flow: float | None = _flow("flow")
    inlet: float | None = _gauge("before it", "pressure_in")
    drop: float | None = quantity(
        Kind.PRESSURE_DIFFERENCE, "kPa", "lost in it", stem="drop", exact=True
    )
    share: float | None = quantity(Kind.SHARE, "%", "share of the loss", stem="share", exact=True)
    after: list[str] = fact("follows")


@dataclass(frozen=True, kw_only=True)
class ChangeRow(Row):
    """A change of one part, and the flow it would bring."""

    change: str = fact("change", "")
    flow: float | None = _flow("flow")
    flow_ambient: float | None = _room_air("flow of room air")
    gain: float | None = quantity(Kind.SHARE, "%", "gain", stem="gain", exact=True)


@dataclass(frozen=True, kw_only=True)
class SuckBack(Row):
    """What a bottle would draw up when the gas stops and what is shut in cools."""

    bottle: str = fact("bottle", "")
    height: float | None = quantity(
        Kind.LENGTH, "cm", "above the liquid", stem="height", exact=True
    )
    volume: float | None = quantity(Kind.VOLUME, "mL", "liquid drawn up", stem="volume", exact=True)
    gas: float | None = quantity(Kind.VOLUME, "mL", "gas shut in", stem="gas", exact=True)
    height_leaky: float | None = quantity(
        Kind.LENGTH, "cm", "if check valves leak", stem="height_if_valve_leaks", exact=True
    )
    volume_leaky: float | None = quantity(
        Kind.VOLUME, "mL", "if check valves leak", stem="volume_if_valve_leaks", exact=True
    )
    safety_bottle: str | None = fact("safety bottle")
    safety_bottle_holds: bool | None = fact("the safety bottle holds all the liquid")


@dataclass(frozen=True, kw_only=True)
class GasLine(Result):
    """What flows, where the pressure goes, what to change."""

    label: str | None = fact("rig")
    flow_ambient: float | None = _room_air("flow at the room's temperature and pressure")
    flow: float | None = _flow("flow of dry gas")
    supplied: float | None = _flow("given by the suppliers", "supplied")
    pressure: float | None = _gauge("highest pressure in the line", "pressure")
    largest_loss: str | None = fact("part that loses most pressure")
    bottleneck: str | None = fact("part whose loss, if removed, adds most flow")
    bottleneck_flow: float | None = _flow("flow without that loss", "bottleneck_flow")
    parts: tuple[PartRow, ...] = listing("parts, in flow order")
    sensitivities: tuple[ChangeRow, ...] = listing("what a little more of each would do")
    what_if: tuple[ChangeRow, ...] = listing("what would change the flow, best first")
    hold_up: float | None = quantity(
        Kind.VOLUME, "mL", "gas between tube and liquid", stem="hold_up", exact=True
    )
    hold_up_time: float | None = quantity(
        Kind.TIME, "s", "time from tube to liquid", stem="hold_up", exact=True
    )
    residence: float | None = quantity(
        Kind.TIME, "s", "time in the discharge tube", stem="residence", exact=True
    )
    blocked_pressure: float | None = _gauge("pressure with the outlet blocked", "blocked")
    suck_back: SuckBack | None = part("what the first bottle would draw up")
    residual: float | None = quantity(
        Kind.DIMENSIONLESS, "", "flow missing at a junction", stem="imbalance", exact=True
    )
