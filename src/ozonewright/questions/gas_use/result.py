"""What the gas-use question answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None
PER_HOUR = (Kind.PRICE_PER_TIME, "1/hour")
PER_GRAM = (Kind.PRICE_PER_MASS, "1/gram")
PER_MMOL = (Kind.PRICE_PER_AMOUNT, "1/mmol")


@dataclass(frozen=True, kw_only=True)
class FlowRow(Row):
    """A flow at which the output was measured."""

    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "flow", stem="flow", exact=True)
    runs: int = fact("runs", 0)
    rate: float | None = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate", exact=True)
    u_rate: float | None = quantity(
        Kind.MASS_RATE, "g/h", "its standard uncertainty", stem="u_rate", exact=True
    )
    share: float | None = quantity(
        Kind.SHARE, "%", "share of the best output", stem="share", exact=True
    )
    time: float | None = quantity(Kind.TIME, "h", "gas lasts", stem="", exact=True, worded="hours")
    per_gram: float | None = quantity(*PER_GRAM, "cost per gram", stem="cost", exact=True)


@dataclass(frozen=True, kw_only=True)
class AlternativeRow(Row):
    """Another way to supply or use the gas."""

    name: str = fact("alternative", "")
    price: float | None = fact("price")
    per_hour: float | None = quantity(*PER_HOUR, "cost per hour", stem="cost", exact=True)
    per_gram: float | None = quantity(*PER_GRAM, "cost per gram", stem="cost", exact=True)
    per_mmol: float | None = quantity(*PER_MMOL, "cost per mmol", stem="cost", exact=True)
    break_even: float | None = quantity(
        Kind.TIME, "h", "pays after so long", stem="break_even", exact=True, worded="hours"
    )
    break_even_mass: float | None = quantity(
        Kind.MASS, "g", "pays after so much ozone", stem="break_even", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class GasUse(Result):
    """How long the gas lasts and what it costs."""

    gas: str = fact("gas", "")
    currency: str = fact("currency", "")
    factor: float | None = quantity(
        Kind.DIMENSIONLESS, "", "real-gas factor", stem="real_gas_factor", exact=True
    )
    content: Number = quantity(Kind.NORMAL_VOLUME, "Nm3", "gas in the cylinder", stem="gas")
    mass: float | None = quantity(Kind.MASS, "kg", "its mass", stem="gas", exact=True)
    usable: Number = quantity(Kind.NORMAL_VOLUME, "Nm3", "usable gas", stem="usable")
    flow: Number = quantity(Kind.NORMAL_FLOW, "NL/min", "flow", stem="flow")
    time: Number = quantity(Kind.TIME, "h", "gas lasts", stem="", worded="hours")
    clock: Number = quantity(
        Kind.TIME, "h", "by the clock, rests included", stem="clock", worded="hours"
    )
    discharge: Number = quantity(
        Kind.TIME, "h", "with the discharge on", stem="discharge", worded="hours"
    )
    wasted: float | None = quantity(
        Kind.NORMAL_VOLUME, "Nm3", "gas gone while the generator rests", stem="wasted", exact=True
    )
    per_hour: Number = quantity(*PER_HOUR, "cost per hour of gas", stem="cost")
    per_gram: Number = quantity(*PER_GRAM, "cost per gram of ozone", stem="cost")
    per_mmol: Number = quantity(*PER_MMOL, "cost per mmol of ozone", stem="cost")
    hardware_per_hour: float | None = quantity(
        *PER_HOUR, "cost per hour, hardware and rent in it", stem="with_hardware", exact=True
    )
    hardware_per_gram: float | None = quantity(
        *PER_GRAM, "cost per gram, hardware and rent in it", stem="with_hardware", exact=True
    )
    hardware_per_mmol: float | None = quantity(
        *PER_MMOL, "cost per mmol, hardware and rent in it", stem="with_hardware", exact=True
    )
    outlay: float | None = fact("to lay out before the first gram")
    deposit: float | None = fact("of it a deposit, which comes back")
    alternatives: tuple[AlternativeRow, ...] = listing("alternatives")
    flows: tuple[FlowRow, ...] = listing("outputs at several flows")
    lowest: float | None = quantity(
        Kind.NORMAL_FLOW,
        "NL/min",
        "lowest measured flow that keeps 90 % of the best output",
        stem="lowest_flow",
        exact=True,
    )
