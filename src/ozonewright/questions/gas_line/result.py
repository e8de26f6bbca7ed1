"""What the answer to a gas line holds."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, fact, listing, part, quantity
from ozonewright.units import Kind


@dataclass(frozen=True, kw_only=True)
class PartRow(Row):
    """One part with what flows through it."""

    name: str = fact("part", "")
    kind: str = fact("kind", "")
    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "flow", stem="flow", exact=True)
    inlet: float | None = quantity(
        Kind.PRESSURE_DIFFERENCE,
        "kPa",
        "before it",
        stem="pressure_in",
        exact=True,
        worded="kpa_gauge",
    )
    drop: float | None = quantity(
        Kind.PRESSURE_DIFFERENCE, "kPa", "lost in it", stem="drop", exact=True
    )
    share: float | None = quantity(Kind.SHARE, "%", "share of the loss", stem="share", exact=True)
    after: list[str] = fact("follows")


@dataclass(frozen=True, kw_only=True)
class ChangeRow(Row):
    """A change of one part, and the flow it would bring."""

    change: str = fact("change", "")
    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "flow", stem="flow", exact=True)
    flow_ambient: float | None = quantity(
        Kind.VOLUME_FLOW,
        "L/min",
        "flow of room air",
        stem="flow",
        exact=True,
        worded="l_per_min_ambient",
    )
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
    flow_ambient: float | None = quantity(
        Kind.VOLUME_FLOW,
        "L/min",
        "flow at the room's temperature and pressure",
        stem="flow",
        exact=True,
        worded="l_per_min_ambient",
    )
    flow: float | None = quantity(
        Kind.NORMAL_FLOW, "NL/min", "flow of dry gas", stem="flow", exact=True
    )
    supplied: float | None = quantity(
        Kind.NORMAL_FLOW, "NL/min", "given by the suppliers", stem="supplied", exact=True
    )
    pressure: float | None = quantity(
        Kind.PRESSURE_DIFFERENCE,
        "kPa",
        "highest pressure in the line",
        stem="pressure",
        exact=True,
        worded="kpa_gauge",
    )
    largest_loss: str | None = fact("part that loses most pressure")
    bottleneck: str | None = fact("part whose loss, if removed, adds most flow")
    bottleneck_flow: float | None = quantity(
        Kind.NORMAL_FLOW, "NL/min", "flow without that loss", stem="bottleneck_flow", exact=True
    )
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
    blocked_pressure: float | None = quantity(
        Kind.PRESSURE_DIFFERENCE,
        "kPa",
        "pressure with the outlet blocked",
        stem="blocked",
        exact=True,
        worded="kpa_gauge",
    )
    suck_back: SuckBack | None = part("what the first bottle would draw up")
    residual: float | None = quantity(
        Kind.DIMENSIONLESS, "", "flow missing at a junction", stem="imbalance", exact=True
    )
