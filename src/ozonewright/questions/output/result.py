"""What the output question answers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ozonewright.results import Result, Row, Share, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


@dataclass(frozen=True, kw_only=True)
class BottleRow(Row):
    """One bottle of the train."""

    bottle: int = fact("bottle", 0)
    titre: float | None = quantity(Kind.VOLUME, "mL", "titre", stem="titre", exact=True)
    blank: float | None = quantity(Kind.VOLUME, "mL", "blank", stem="blank", exact=True)
    thiosulfate: float | None = quantity(
        Kind.AMOUNT, "mmol", "thiosulfate", stem="thiosulfate", exact=True
    )
    ozone: float | None = quantity(Kind.MASS, "mg", "ozone", stem="ozone", exact=True)
    share: float | None = quantity(Kind.SHARE, "%", "share of the ozone", stem="share", exact=True)
    iodide: float | None = quantity(Kind.AMOUNT, "mmol", "iodide", stem="iodide", exact=True)
    ratio: float | None = quantity(
        Kind.DIMENSIONLESS, "", "iodide over the least needed", stem="iodide_ratio", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class Output(Result):
    """The ozone output of one run."""

    label: str | None = fact("run")
    setting: str | None = fact("setting")
    started: datetime | None = fact("started")
    discharge: str = fact("discharge", "on")
    on_time: Number = quantity(Kind.TIME, "s", "on-time", stem="on_time")
    titrant: Number = quantity(Kind.CONCENTRATION, "mol/L", "thiosulfate", stem="titrant")
    ozone: Number = quantity(Kind.MASS, "mg", "ozone collected", stem="ozone")
    ozone_amount: Number = quantity(Kind.AMOUNT, "mmol", "ozone collected", stem="ozone")
    rate: Number = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate")
    rate_per_minute: Number = quantity(Kind.MASS_RATE, "mg/min", "output", stem="rate")
    rate_amount: Number = quantity(Kind.AMOUNT_RATE, "mmol/h", "output", stem="rate")
    feed_flow: Number = quantity(Kind.NORMAL_FLOW, "NL/min", "feed, dry", stem="feed_flow")
    ozonised_flow: Number = quantity(
        Kind.NORMAL_FLOW, "NL/min", "ozonised gas, dry", stem="ozonised_flow"
    )
    concentration: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "concentration", stem="concentration"
    )
    mass_fraction: Number = quantity(Kind.MASS_FRACTION, "wt%", "mass fraction", stem="fraction")
    mole_fraction: Number = quantity(Kind.MOLE_FRACTION, "vol%", "volume fraction", stem="fraction")
    power: Number = quantity(Kind.POWER, "W", "power", stem="power")
    power_at: str = fact("power measured at", "plug")
    energy_yield: Number = quantity(Kind.YIELD, "g/kWh", "yield", stem="yield")
    discharge_power: Number = quantity(Kind.POWER, "W", "discharge power", stem="discharge_power")
    yield_discharge: Number = quantity(
        Kind.YIELD, "g/kWh", "yield of the discharge", stem="yield_discharge"
    )
    dissolved: Number = quantity(
        Kind.MASS_CONCENTRATION, "mg/L", "ozone dissolved", stem="dissolved"
    )
    guard_share: Number = quantity(Kind.SHARE, "%", "guard share", stem="guard_share")
    iodide_ratio: Number = quantity(
        Kind.DIMENSIONLESS, "", "iodide over the least needed, worst bottle", stem="iodide_ratio"
    )
    bottles: tuple[BottleRow, ...] = listing("bottles")
    budget: tuple[Share, ...] = listing("where the uncertainty of the output comes from")
    at_least: bool = fact("uncertainty is a lower bound", False)
    interval_method: str = fact("interval by", "first order")
