"""What is answered about the power of a generator."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.results import Result, Row, Share, fact, listing, part, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


@dataclass(frozen=True, kw_only=True)
class LoopPoint(Row):
    """A point of the loop, at the ratios stated."""

    voltage: float | None = quantity(Kind.VOLTAGE, "kV", "voltage", stem="voltage", exact=True)
    charge: float | None = quantity(Kind.CHARGE, "µC", "charge", stem="charge", exact=True)


@dataclass(frozen=True, kw_only=True)
class LoopRow(Row):
    """The recorded loop as capacitors and voltages."""

    cycles: int = fact("cycles used", 0)
    frequency: float | None = quantity(
        Kind.FREQUENCY, "Hz", "frequency", stem="frequency", exact=True
    )
    energy: Number = quantity(Kind.ENERGY, "mJ", "energy per cycle", stem="energy_per_cycle")
    peak: Number = quantity(Kind.VOLTAGE, "kV", "peak voltage", stem="peak_voltage")
    dielectric: Number = quantity(
        Kind.CAPACITANCE, "pF", "dielectric capacitance", stem="dielectric_capacitance"
    )
    cell: Number = quantity(Kind.CAPACITANCE, "pF", "cell capacitance", stem="cell_capacitance")
    gap: Number = quantity(Kind.CAPACITANCE, "pF", "gap capacitance", stem="gap_capacitance")
    gap_voltage: Number = quantity(Kind.VOLTAGE, "kV", "gap voltage", stem="gap_voltage")
    ignition: Number = quantity(Kind.VOLTAGE, "kV", "ignition voltage", stem="ignition_voltage")
    manley: Number = quantity(Kind.POWER, "W", "power by Manley's equation", stem="manley_power")
    per_degree: float | None = quantity(
        Kind.SHARE, "%", "of the power, by a degree of phase between the channels",
        stem="per_degree", exact=True,
    )  # fmt: skip
    outline: tuple[LoopPoint, ...] = listing("mean cycle")
    corners: tuple[LoopPoint, ...] = listing("corners of the parallelogram")


@dataclass(frozen=True, kw_only=True)
class Power(Result):
    """Power at the plug and in the gas, and what a kilowatt-hour of either brings."""

    plug: Number = quantity(Kind.POWER, "W", "plug power", stem="plug_power")
    standby: Number = quantity(Kind.POWER, "W", "standby power", stem="standby_power")
    discharge: Number = quantity(Kind.POWER, "W", "discharge power", stem="discharge_power")
    discharge_by: str | None = fact("discharge power by")
    """``loop``, ``Manley's equation``, ``reading``; None where it is not determined."""
    supply_efficiency: Number = quantity(
        Kind.SHARE, "%", "discharge over plug", stem="supply_efficiency"
    )
    supply_efficiency_less_standby: Number = quantity(
        Kind.SHARE, "%", "discharge over plug less standby",
        stem="supply_efficiency_less_standby",
    )  # fmt: skip
    ignition: Number = quantity(Kind.VOLTAGE, "kV", "ignition voltage", stem="ignition_voltage")
    rate: Number = quantity(Kind.MASS_RATE, "g/h", "output", stem="rate")
    yield_plug: Number = quantity(Kind.YIELD, "g/kWh", "yield at the plug", stem="yield_plug")
    yield_discharge: Number = quantity(
        Kind.YIELD, "g/kWh", "yield of the discharge", stem="yield_discharge"
    )
    limit: float | None = quantity(
        Kind.YIELD, "g/kWh", "most that is possible", stem="yield_limit", exact=True
    )
    share_plug: Number = quantity(
        Kind.SHARE, "%", "plug yield over the limit", stem="share_of_limit_plug"
    )
    share_discharge: Number = quantity(
        Kind.SHARE, "%", "discharge yield over the limit",
        stem="share_of_limit_discharge",
    )  # fmt: skip
    loop: LoopRow | None = part("the recorded loop")
    budget: tuple[Share, ...] = listing("where the uncertainty of the discharge power comes from")
    at_least: bool = fact("uncertainty is a lower bound", False)
    setting: str | None = fact("setting")
