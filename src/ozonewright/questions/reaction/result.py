"""What the plan of a reaction answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.records.sign import SignRow
from ozonewright.results import Result, Row, fact, listing, part, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


@dataclass(frozen=True, kw_only=True)
class SubstrateRow(Row):
    """One substrate."""

    smiles: str = fact("structure", "")
    name: str | None = fact("name")
    formula: str = fact("formula", "")
    molar_mass: float | None = quantity(
        Kind.MOLAR_MASS, "g/mol", "molar mass", stem="molar_mass", exact=True
    )
    amount: float | None = quantity(Kind.AMOUNT, "mmol", "amount", stem="", exact=True)
    ozone: float | None = quantity(
        Kind.DIMENSIONLESS, "", "ozone for each mole", stem="ozone_equivalents", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class SiteRow(Row):
    """A kind of site that ozone may attack, in the order of attack."""

    kind: str = fact("site", "")
    count: int = fact("how many", 0)
    rate_constant: float | None = quantity(
        Kind.RATE_CONSTANT, "L/(mol s)", "rate constant", stem="rate_constant", exact=True
    )
    rate_of: str | None = fact("rate constant of")
    medium: str | None = fact("measured in")
    placed_by: str = fact("placed by", "")
    evidence: str = fact("evidence", "")
    attacked: bool = fact("is to be cleaved", False)
    of: str = fact("substrate", "")


@dataclass(frozen=True, kw_only=True)
class PeroxideRow(Row):
    """One form in which the peroxide may stand in the flask."""

    smiles: str = fact("structure", "")
    formula: str = fact("formula", "")
    molar_mass: float | None = quantity(
        Kind.MOLAR_MASS, "g/mol", "molar mass", stem="molar_mass", exact=True
    )
    of: str = fact("substrate", "")


@dataclass(frozen=True, kw_only=True)
class ProductRow(Row):
    """One product with its theoretical yield."""

    smiles: str = fact("structure", "")
    formula: str = fact("formula", "")
    role: str = fact("role", "product")
    molar_mass: float | None = quantity(
        Kind.MOLAR_MASS, "g/mol", "molar mass", stem="molar_mass", exact=True
    )
    amount: float | None = quantity(Kind.AMOUNT, "mmol", "in theory", stem="", exact=True)
    mass: float | None = quantity(Kind.MASS, "g", "in theory", stem="mass", exact=True)


@dataclass(frozen=True, kw_only=True)
class QuenchRow(Row):
    """One quench: how much, what it leaves."""

    reagent: str = fact("quench", "")
    equivalents: float = fact("equivalents", 0.0)
    amount: float | None = quantity(Kind.AMOUNT, "mmol", "amount", stem="", exact=True)
    mass: float | None = quantity(Kind.MASS, "g", "mass", stem="mass", exact=True)
    volume: float | None = quantity(Kind.VOLUME, "mL", "volume", stem="volume", exact=True)
    by_product: str = fact("by-product", "")
    by_product_mass: float | None = quantity(
        Kind.MASS, "g", "by-product", stem="by_product_mass", exact=True
    )
    hydrogen: float | None = quantity(
        Kind.VOLUME, "mL", "hydrogen, at most", stem="hydrogen", exact=True
    )
    waiting: float | None = quantity(Kind.TIME, "h", "waiting", stem="waiting", exact=True)
    low_flash: bool = fact("its vapour catches fire in the cold", False)
    evidence: str = fact("evidence", "")


@dataclass(frozen=True, kw_only=True)
class TailRow(Row):
    """One way in which ozone reaches the tail bottle."""

    case: str = fact("case", "")
    ozone: float | None = quantity(Kind.AMOUNT, "mmol", "ozone", stem="ozone", exact=True)
    iodide: float | None = quantity(Kind.AMOUNT, "mmol", "iodide", stem="iodide", exact=True)
    potassium_iodide: float | None = quantity(
        Kind.MASS, "g", "potassium iodide", stem="potassium_iodide", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class SignalRow(Row):
    """One sign of the end point: whether it can be seen here."""

    signal: str = fact("sign", "")
    use: str = fact("use", "yes")
    watched: bool = fact("to be watched", False)


@dataclass(frozen=True, kw_only=True)
class TimerRow(Row):
    """The generator on a timer while the reaction runs; without times it runs on."""

    on: float | None = quantity(Kind.TIME, "min", "on", stem="on", exact=True)
    off: float | None = quantity(Kind.TIME, "min", "off", stem="off", exact=True)
    chosen: bool = fact("whether the limit chose it", False)
    limit: float | None = quantity(Kind.TEMPERATURE, "°C", "limit", stem="limit", exact=True)
    peak_temperature: Number = quantity(
        Kind.TEMPERATURE, "°C", "peak of the tube", stem="peak_temperature"
    )
    rate_on: Number = quantity(Kind.MASS_RATE, "g/h", "mean output while on", stem="rate_on")
    """None where it is taken as constant."""
    rate_cold: Number = quantity(Kind.MASS_RATE, "g/h", "output of the cold tube", stem="rate_cold")
    ozone_rate: Number = quantity(
        Kind.MASS_RATE, "mg/h", "ozone per clock hour", stem="ozone_mg", worded="per_clock_hour"
    )


@dataclass(frozen=True, kw_only=True)
class ReactionPlan(Result):
    """How to dose one reaction and what comes of it."""

    label: str | None = fact("reaction")
    work_up: str | None = fact("work-up")
    substrate: SubstrateRow | None = part("substrate")
    substrates: tuple[SubstrateRow, ...] = listing("substrates")
    sites: tuple[SiteRow, ...] = listing("sites")
    demand: Number = quantity(Kind.AMOUNT, "mmol", "ozone demand", stem="ozone_demand")
    output: Number = quantity(Kind.MASS_RATE, "g/h", "output", stem="output")
    output_amount: Number = quantity(Kind.AMOUNT_RATE, "mmol/h", "output", stem="output")
    output_from: str = fact("output from", "typed")
    uptake: Number = quantity(Kind.SHARE, "%", "uptake", stem="uptake")
    uptake_from: str = fact("uptake from", "typed")
    on_time: Number = quantity(Kind.TIME, "min", "on-time", stem="on_time")
    shortest: float | None = quantity(
        Kind.TIME, "min", "on-time if all the ozone were taken", stem="shortest", exact=True
    )
    look_from: float | None = quantity(Kind.TIME, "min", "look from", stem="look_from", exact=True)
    stop_by: float | None = quantity(Kind.TIME, "min", "stop by", stem="stop_by", exact=True)
    simulated: str | None = fact("marks simulated in the flask of")
    simulated_on_time: Number = quantity(
        Kind.TIME, "min", "on-time to 99 % converted, simulated", stem="simulated_on_time"
    )
    simulated_uptake: Number = quantity(
        Kind.SHARE, "%", "uptake until then, simulated", stem="simulated_uptake"
    )
    modelled_uptake: Number = quantity(
        Kind.SHARE, "%", "uptake until done by the model alone", stem="modelled_uptake"
    )
    product_at_stop: float | None = quantity(
        Kind.SHARE, "%", "mean product at stop-by, simulated", stem="product_at_stop_by",
        exact=True,
    )  # fmt: skip
    late: Number = quantity(
        Kind.SHARE, "%", "product that one minute too long costs, simulated",
        stem="cost_of_a_minute_late",
    )  # fmt: skip
    look_by_rule: float | None = quantity(
        Kind.TIME, "min", "look from, by rule of thumb", stem="look_from_by_rule", exact=True
    )
    stop_by_rule: float | None = quantity(
        Kind.TIME, "min", "stop by, by rule of thumb", stem="stop_by_by_rule", exact=True
    )
    signs: tuple[SignRow, ...] = listing("signs of the end point, simulated")
    starts: int | None = fact("starts of the discharge")
    clock_time: float | None = quantity(
        Kind.TIME, "min", "time by the clock", stem="clock_time", exact=True
    )
    timer: TimerRow | None = part("generator on a timer")
    left_at_stop: float | None = quantity(
        Kind.SHARE, "%", "ozone demand unmet at stop-by, at worst", stem="left_at_stop", exact=True
    )
    loss_per_minute: float | None = quantity(
        Kind.SHARE, "%", "product that one minute too long may cost, at most",
        stem="loss_per_minute_up_to", exact=True,
    )  # fmt: skip
    oxygen: Number = quantity(Kind.NORMAL_VOLUME, "NL", "oxygen", stem="oxygen")
    reaction_heat: Number = quantity(
        Kind.MOLAR_ENERGY, "kJ/mol", "reaction heat", stem="reaction_heat"
    )
    heat: Number = quantity(Kind.POWER, "W", "heat", stem="heat")
    heat_in_all: Number = quantity(Kind.ENERGY, "kJ", "heat in all", stem="heat_in_all")
    adiabatic_rise: Number = quantity(
        Kind.TEMPERATURE_DIFFERENCE, "K", "rise if nothing were cooled", stem="adiabatic_rise"
    )
    dry_ice: float | None = quantity(
        Kind.MASS, "g", "dry ice for the reaction heat", stem="coolant_dry_ice", exact=True
    )
    dry_ice_to_cool: float | None = quantity(
        Kind.MASS, "g", "dry ice to cool the liquid down", stem="cooling_down_dry_ice", exact=True
    )
    concentration: float | None = quantity(
        Kind.CONCENTRATION, "mol/L", "substrate in the liquid", stem="substrate", exact=True
    )
    advised_volume: float | None = quantity(
        Kind.VOLUME, "mL", "liquid for 0.1 mol/L", stem="advised_volume", exact=True
    )
    peroxide: str | None = fact("peroxide that stands in the flask")
    peroxide_forms: tuple[PeroxideRow, ...] = listing("forms it may have")
    peroxide_amount: float | None = quantity(
        Kind.AMOUNT, "mmol", "peroxide", stem="peroxide", exact=True
    )
    peroxide_energy: float | None = quantity(
        Kind.ENERGY, "kJ", "energy of its decomposition", stem="peroxide_energy", exact=True
    )
    peroxide_energy_per_mass: float | None = quantity(
        Kind.SPECIFIC_ENERGY, "J/g", "energy by mass, free of solvent",
        stem="peroxide_energy", exact=True,
    )  # fmt: skip
    peroxide_evidence: str | None = fact("evidence of that energy")
    tail: tuple[TailRow, ...] = listing("what may reach the tail bottle")
    tail_iodide: float | None = quantity(
        Kind.AMOUNT, "mmol", "iodide that the tail bottle needs", stem="tail_iodide", exact=True
    )
    signals: tuple[SignalRow, ...] = listing("signs of the end point")
    quench: tuple[QuenchRow, ...] = listing("quench")
    products: tuple[ProductRow, ...] = listing("products")
    interval_method: str = fact("interval by", "first order")
