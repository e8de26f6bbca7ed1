"""A sign of the end point, with figures: made by one question, taken on by others."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Row, fact, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


@dataclass(frozen=True, kw_only=True)
class SignRow(Row):
    """What a sign shows before the end and behind it, and when it turns."""

    sign: str = fact("sign", "")
    """``off-gas``, ``tail bottle`` or ``blue``."""
    tells: bool = fact("whether it tells the end", False)
    chance: float | None = quantity(
        Kind.SHARE, "%", "simulated runs that show it", stem="chance", exact=True
    )
    at: Number = quantity(Kind.TIME, "min", "turns at on-time", stem="at")
    after_done: Number = quantity(
        Kind.TIME, "min", "so long after 99 % converted", stem="after_99_percent"
    )
    gas_before: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "off-gas half-way", stem="off_gas_half_way"
    )
    gas_after: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "off-gas after the end", stem="off_gas_after"
    )
    colours_before: Number = quantity(
        Kind.TIME, "s", "a fresh bottle colours within, half-way", stem="colours_within_half_way"
    )
    colours_after: Number = quantity(
        Kind.TIME, "s", "the same after the end", stem="colours_within_after"
    )
    volume: float | None = quantity(
        Kind.VOLUME, "mL", "liquid of that bottle", stem="bottle", exact=True
    )
    dissolved: Number = quantity(
        Kind.CONCENTRATION, "mmol/L", "ozone dissolved after the end", stem="dissolved_after"
    )
