"""What the generator question answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


@dataclass(frozen=True, kw_only=True)
class RunRow(Row):
    """A run beside the model that was fitted to all of them."""

    label: str = fact("run", "")
    setting: str | None = fact("setting")
    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "feed, dry", stem="flow", exact=True)
    measured: float | None = quantity(
        Kind.MASS_RATE, "g/h", "measured", stem="measured", exact=True
    )
    modelled: Number = quantity(Kind.MASS_RATE, "g/h", "model", stem="modelled")
    ratio: float | None = quantity(
        Kind.DIMENSIONLESS, "", "measured over model", stem="ratio", exact=True
    )
    alike: bool = fact("whether feed and power are those of the place asked for", True)


@dataclass(frozen=True, kw_only=True)
class LumpedRow(Row):
    """One unknown of the generator, before and after the runs."""

    name: str = fact("unknown", "")
    value: Number = quantity(Kind.DIMENSIONLESS, "", "after the runs", stem="value")
    beforehand: tuple[float, float] = fact("95 % beforehand", (0.0, 0.0))
    told: float | None = quantity(
        Kind.SHARE, "%", "of the doubt that the runs took away", stem="told", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class CurveRow(Row):
    """Output at another flow, the rest as at the place asked for."""

    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "flow", stem="flow", exact=True)
    rate: Number = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate")
    concentration: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "concentration", stem="concentration"
    )


@dataclass(frozen=True, kw_only=True)
class Upgrade(Row):
    """What one change would bring."""

    change: str = fact("change", "")
    rate: Number = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate")
    ratio: Number = quantity(Kind.DIMENSIONLESS, "", "output over that of now", stem="ratio")
    concentration: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "concentration", stem="concentration"
    )
    sure: float | None = quantity(Kind.SHARE, "%", "chance of a gain", stem="sure", exact=True)
    price: float | None = fact("price")
    currency: str = fact("currency", "")
    gain_per_price: float | None = fact("gain in mg/h for each unit of money")


@dataclass(frozen=True, kw_only=True)
class BestPoint(Row):
    """The flow that serves a wish best."""

    wish: str = fact("wish", "")
    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "flow", stem="flow", exact=True)
    rate: Number = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate")
    concentration: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "concentration", stem="concentration"
    )
    sure: float | None = quantity(Kind.SHARE, "%", "chance that it serves", stem="sure", exact=True)
    cost: float | None = fact("cost of a gram")
    currency: str = fact("currency", "")


@dataclass(frozen=True, kw_only=True)
class Sharper(Row):
    """A run to make, and how much of the doubt about the changes it would take away."""

    change: str = fact("run", "")
    share: float | None = quantity(
        Kind.SHARE, "%", "of the doubt about the changes", stem="taken", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class Generator(Result):
    """Where a generator runs on its map, and what a change would bring."""

    setting: str | None = fact("setting")
    at: str | None = fact("asked at")
    flow: float | None = quantity(Kind.NORMAL_FLOW, "NL/min", "feed, dry", stem="flow", exact=True)
    power: float | None = quantity(Kind.POWER, "W", "power", stem="power", exact=True)
    power_at: str = fact("power measured at", "plug")
    wall: Number = quantity(Kind.TEMPERATURE, "°C", "wall", stem="wall")
    on_share: float | None = quantity(Kind.SHARE, "%", "discharge on", stem="on_share", exact=True)
    """Of the clock, where a pattern was asked for; then the wall is its mean while on."""
    ozone_rate: Number = quantity(
        Kind.MASS_RATE, "mg/h", "ozone per clock hour", stem="ozone_mg", worded="per_clock_hour"
    )
    efficiency: Number = quantity(
        Kind.DIMENSIONLESS, "", "share of the power that breaks oxygen", stem="efficiency"
    )
    rate: Number = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate")
    concentration: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "concentration", stem="concentration"
    )
    energy_yield: Number = quantity(Kind.YIELD, "g/kWh", "yield", stem="yield")
    supply_efficiency: Number = quantity(
        Kind.SHARE, "%", "discharge power over plug power", stem="supply_efficiency"
    )
    yield_discharge: Number = quantity(
        Kind.YIELD, "g/kWh", "yield of the discharge", stem="yield_discharge"
    )
    specific_energy: float | None = quantity(
        Kind.MOLAR_ENERGY, "kJ/mol", "energy for the feed", stem="specific_energy", exact=True
    )
    gas_temperature: Number = quantity(
        Kind.TEMPERATURE, "°C", "gas in the tube", stem="gas_temperature"
    )
    nox: Number = quantity(
        Kind.SHARE, "%", "nitrogen oxides", stem="nox", worded="mol_percent_of_ozone"
    )
    share_of_most: Number = quantity(
        Kind.SHARE, "%", "of the output at four times the flow", stem="share_of_most"
    )
    runs: tuple[RunRow, ...] = listing("runs beside the model")
    lumped: tuple[LumpedRow, ...] = listing("what is not known of the tube")
    upgrades: tuple[Upgrade, ...] = listing("what a change would bring")
    curve: tuple[CurveRow, ...] = listing("output against flow")
    best: tuple[BestPoint, ...] = listing("flow for a wish")
    sharper: tuple[Sharper, ...] = listing("the run that would sharpen this most")
    moved: float | None = quantity(
        Kind.SHARE, "%", "steps of the fit that were taken", stem="moved", exact=True
    )
