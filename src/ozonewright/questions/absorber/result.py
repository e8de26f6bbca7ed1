"""What the absorber question answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


@dataclass(frozen=True, kw_only=True)
class BottleRow(Row):
    """One bottle of the train."""

    name: str = fact("bottle", "")
    liquid: str = fact("liquid", "")
    holds: str = fact("what takes the ozone", "")
    efficiency: Number = quantity(
        Kind.SHARE, "%", "taken up of what comes in", stem="transfer_efficiency"
    )
    slip: Number = quantity(Kind.MASS_RATE, "mg/min", "slips past", stem="slip")
    dissolved: Number = quantity(
        Kind.MASS_CONCENTRATION, "mg/L", "ozone dissolved", stem="dissolved"
    )
    off_gas: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "ozone in the gas behind it", stem="off_gas"
    )
    partition: Number = quantity(
        Kind.DIMENSIONLESS, "", "in the liquid over in the gas", stem="partition"
    )
    bubble: Number = quantity(Kind.LENGTH, "mm", "bubble", stem="bubble")
    rise: Number = quantity(Kind.VELOCITY, "m/s", "rise", stem="rise")
    contact: Number = quantity(Kind.TIME, "s", "time in the liquid", stem="contact")
    hold_up: Number = quantity(Kind.SHARE, "%", "gas in the bubbled liquid", stem="gas_hold_up")
    kl: Number = quantity(Kind.VELOCITY, "m/s", "transfer coefficient of the liquid", stem="kl")
    kl_large: float | None = quantity(
        Kind.VELOCITY, "m/s", "the same by Calderbank and Moo-Young, large bubbles",
        stem="kl_calderbank_large", exact=True,
    )  # fmt: skip
    kl_small: float | None = quantity(
        Kind.VELOCITY, "m/s", "the same by Calderbank and Moo-Young, small bubbles",
        stem="kl_calderbank_small", exact=True,
    )  # fmt: skip
    kl_power: float | None = quantity(
        Kind.VELOCITY, "m/s", "the same from the power of the gas, Lamont and Scott",
        stem="kl_lamont", exact=True,
    )  # fmt: skip
    hatta: Number = quantity(Kind.DIMENSIONLESS, "", "Hatta number", stem="hatta")
    enhancement: Number = quantity(
        Kind.DIMENSIONLESS, "", "enhancement at the sparger", stem="enhancement"
    )
    lasts: Number = quantity(
        Kind.TIME, "min", "what takes the ozone is used up after", stem="lasts", worded="minutes"
    )
    fills: Number = quantity(
        Kind.TIME, "min", "the liquid fills to 63 % in", stem="fills", worded="minutes"
    )


@dataclass(frozen=True, kw_only=True)
class CurveRow(Row):
    """The uptake of the train if one thing were otherwise."""

    of: str = fact("what is changed", "")
    depth: float | None = quantity(Kind.LENGTH, "cm", "depth", stem="depth", exact=True)
    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "flow", stem="flow", exact=True)
    bubble: float | None = quantity(Kind.LENGTH, "mm", "bubble", stem="bubble", exact=True)
    efficiency: float | None = quantity(
        Kind.SHARE, "%", "taken up", stem="transfer_efficiency", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class CourseRow(Row):
    """One bottle at one moment, from fresh liquid on."""

    time: float | None = quantity(Kind.TIME, "min", "gas flowing", stem="time", exact=True)
    bottle: str = fact("bottle", "")
    left: float | None = quantity(
        Kind.SHARE, "%", "left of what takes the ozone", stem="reactant_left", exact=True
    )
    dissolved: float | None = quantity(
        Kind.MASS_CONCENTRATION, "mg/L", "ozone dissolved", stem="dissolved", exact=True
    )
    efficiency: float | None = quantity(
        Kind.SHARE, "%", "taken up of what comes in", stem="transfer_efficiency", exact=True
    )
    slip: float | None = quantity(Kind.MASS_RATE, "mg/min", "slips past", stem="slip", exact=True)
    slip_low: float | None = quantity(
        Kind.MASS_RATE, "mg/min", "the same, lower end of 95 %", stem="slip_low", exact=True
    )
    slip_high: float | None = quantity(
        Kind.MASS_RATE, "mg/min", "the same, upper end of 95 %", stem="slip_high", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class WhatIf(Row):
    """A change and what it would bring."""

    change: str = fact("change", "")
    efficiency: float | None = quantity(
        Kind.SHARE, "%", "taken up", stem="transfer_efficiency", exact=True
    )
    gain: float | None = quantity(Kind.SHARE, "%", "gain", stem="gain", exact=True,
                                  worded="points")  # fmt: skip
    slip: float | None = quantity(Kind.MASS_RATE, "mg/min", "slips past", stem="slip", exact=True)


@dataclass(frozen=True, kw_only=True)
class Absorber(Result):
    """How much of the ozone the bottles take up."""

    label: str | None = fact("rig")
    efficiency: Number = quantity(
        Kind.SHARE, "%", "taken up of the ozone sent in", stem="transfer_efficiency"
    )
    slip: Number = quantity(Kind.MASS_RATE, "mg/min", "slips past", stem="slip")
    modelled: Number = quantity(
        Kind.SHARE, "%", "taken up by the model alone", stem="modelled_efficiency"
    )
    measured_by: str | None = fact("what the model was corrected by")
    correction: Number = quantity(
        Kind.DIMENSIONLESS, "", "transfer found over transfer of the model", stem="correction"
    )
    guard_share: Number = quantity(Kind.SHARE, "%", "guard share", stem="guard_share")
    dissolved: Number = quantity(
        Kind.MASS_CONCENTRATION, "mg/L", "ozone dissolved in the first bottle", stem="dissolved"
    )
    bubble: Number = quantity(Kind.LENGTH, "mm", "bubble of the first bottle", stem="bubble")
    kl: Number = quantity(Kind.VELOCITY, "m/s", "transfer coefficient there", stem="kl")
    hatta: Number = quantity(Kind.DIMENSIONLESS, "", "Hatta number there", stem="hatta")
    output: Number = quantity(Kind.MASS_RATE, "mg/min", "ozone sent in", stem="output")
    flow: Number = quantity(Kind.NORMAL_FLOW, "NL/min", "dry feed", stem="flow")
    concentration: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "ozone in the gas sent in", stem="concentration"
    )
    bottles: tuple[BottleRow, ...] = listing("bottles, in flow order")
    breaks: Number = quantity(
        Kind.TIME, "min", "a twentieth of the ozone passes after", stem="breaks_through",
        worded="minutes",
    )  # fmt: skip
    course: tuple[CourseRow, ...] = listing("bottles minute by minute")
    curves: tuple[CurveRow, ...] = listing("uptake against depth, flow and bubble")
    what_if: tuple[WhatIf, ...] = listing("what a change would bring, best first")
