"""What is answered about a timer."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


@dataclass(frozen=True, kw_only=True)
class Pattern(Row):
    """One on-time and the least rest in whole minutes that keeps 39 of 40 peaks below the limit."""

    on: float | None = quantity(Kind.TIME, "min", "on", stem="on", exact=True)
    off: float | None = quantity(Kind.TIME, "min", "off", stem="off", exact=True)
    peak_temperature: float | None = quantity(
        Kind.TEMPERATURE, "°C", "peak", stem="peak_temperature", exact=True
    )
    ozone_rate: float | None = quantity(
        Kind.MASS_RATE, "mg/h", "ozone per clock hour", stem="ozone_mg", exact=True,
        worded="per_clock_hour",
    )  # fmt: skip
    starts_per_hour: float | None = quantity(Kind.RATE, "1/h", "starts", stem="starts", exact=True)
    best: bool = fact("delivers most", False)


@dataclass(frozen=True, kw_only=True)
class BodyRow(Row):
    """One of what warms side by side: the tube, or the box around it."""

    body: int = fact("body", 0)
    rise: Number = quantity(Kind.TEMPERATURE_DIFFERENCE, "K", "rise", stem="rise")
    time_constant: Number = quantity(Kind.TIME, "min", "time constant", stem="time_constant")


@dataclass(frozen=True, kw_only=True)
class ReadingRow(Row):
    """One reading of the log, beside the curve that was fitted to all."""

    time: float | None = quantity(Kind.TIME, "min", "time", stem="time", exact=True)
    read: float | None = quantity(Kind.TEMPERATURE, "°C", "read", stem="read", exact=True)
    fitted: float | None = quantity(Kind.TEMPERATURE, "°C", "fitted", stem="fitted", exact=True)
    on: bool = fact("discharge on from here", True)


@dataclass(frozen=True, kw_only=True)
class CoolingRow(Row):
    """How warm the tube stays, running on, in one arrangement of air."""

    way: str = fact("air", "")
    flow: Number = quantity(Kind.VOLUME_FLOW, "m3/h", "air", stem="flow")
    velocity: Number = quantity(Kind.VELOCITY, "m/s", "across the tube", stem="velocity")
    air_temperature: Number = quantity(
        Kind.TEMPERATURE, "°C", "air in the box", stem="air_temperature"
    )
    temperature: Number = quantity(Kind.TEMPERATURE, "°C", "tube if it ran on", stem="temperature")


@dataclass(frozen=True, kw_only=True)
class Duty(Result):
    """A timer's pattern: warmth, delivery, and what is wasted meanwhile."""

    on_share: Number = quantity(Kind.SHARE, "%", "discharge on", stem="on_share")
    peak_share: Number = quantity(
        Kind.SHARE, "%", "peak, of the continuous rise", stem="peak_share"
    )
    trough_share: Number = quantity(
        Kind.SHARE, "%", "trough, of the continuous rise", stem="trough_share"
    )
    peak_temperature: Number = quantity(
        Kind.TEMPERATURE, "°C", "peak temperature", stem="peak_temperature"
    )
    steady_temperature: Number = quantity(
        Kind.TEMPERATURE, "°C", "temperature if it ran on", stem="steady_temperature"
    )
    ozone_rate: Number = quantity(
        Kind.MASS_RATE, "mg/h", "ozone per clock hour", stem="ozone_mg", worded="per_clock_hour"
    )
    rate_on: Number = quantity(Kind.MASS_RATE, "g/h", "mean output while on", stem="rate_on")
    """Of the settled pattern; None where the output is taken as constant."""
    rate_start: Number = quantity(
        Kind.MASS_RATE, "g/h", "output at the start of each on-time", stem="rate_start"
    )
    rate_end: Number = quantity(
        Kind.MASS_RATE, "g/h", "output at the end of each on-time", stem="rate_end"
    )
    rate_cold: Number = quantity(Kind.MASS_RATE, "g/h", "output of the cold tube", stem="rate_cold")
    rate_steady: Number = quantity(Kind.MASS_RATE, "g/h", "output if it ran on", stem="rate_steady")
    first_ozone: Number = quantity(
        Kind.MASS, "mg", "ozone of the first on-time, from cold", stem="first_ozone"
    )
    longest_on: float | None = quantity(
        Kind.TIME, "min", "longest on-time with this rest", stem="longest_on", exact=True
    )
    """None when unknown, or when the limit is never reached (`limit_reached` is False)."""
    safe_on: float | None = quantity(
        Kind.TIME, "min", "on-time to plan with", stem="safe_on", exact=True
    )
    """Below the limit in 97.5 % of the draws."""
    first_on: float | None = quantity(
        Kind.TIME, "min", "longest single on-time from cold", stem="first_on", exact=True
    )
    limit_reached: bool | None = fact("whether it would pass the limit if it ran on")
    limit: float | None = quantity(Kind.TEMPERATURE, "°C", "limit", stem="limit", exact=True)
    ambient: float | None = quantity(Kind.TEMPERATURE, "°C", "ambient", stem="ambient", exact=True)
    on: float | None = quantity(Kind.TIME, "min", "on", stem="on", exact=True)
    off: float | None = quantity(Kind.TIME, "min", "off", stem="off", exact=True)
    time_constant: Number = quantity(Kind.TIME, "min", "time constant", stem="time_constant")
    bodies: tuple[BodyRow, ...] = listing("what warms")
    readings: int | None = fact("readings of the log")
    log: tuple[ReadingRow, ...] = listing("readings of the log beside the fit")
    residual: float | None = quantity(
        Kind.TEMPERATURE_DIFFERENCE, "K", "scatter about the fit", stem="residual", exact=True
    )
    starts_per_hour: float | None = quantity(Kind.RATE, "1/h", "starts", stem="starts", exact=True)
    gas_wasted: Number = quantity(
        Kind.NORMAL_FLOW, "NL/h", "gas that passes while the discharge is off", stem="gas_wasted",
        worded="nl_per_clock_hour",
    )  # fmt: skip
    solvent_wasted: Number = quantity(
        Kind.MASS_RATE, "g/h", "solvent that this gas carries off, at most",
        stem="solvent_wasted", worded="g_per_clock_hour",
    )  # fmt: skip
    solvent: str | None = fact("solvent that the gas passes through")
    cooling: tuple[CoolingRow, ...] = listing("what air would bring, the tube running on")
    air_needed: Number = quantity(
        Kind.VOLUME_FLOW, "m3/h", "air that keeps the box within 10 K", stem="air_needed"
    )
    patterns: tuple[Pattern, ...] = listing("patterns below the limit")
