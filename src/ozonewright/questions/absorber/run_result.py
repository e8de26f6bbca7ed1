"""What a simulated run answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.records.sign import SignRow
from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

Number = Estimate | float | None


def _share(words: str, stem: str) -> float | None:
    found: float | None = quantity(Kind.SHARE, "%", words, stem=stem, exact=True)
    return found


def _gas(words: str, stem: str) -> float | None:
    found: float | None = quantity(Kind.NORMAL_CONCENTRATION, "g/Nm3", words, stem=stem, exact=True)
    return found


@dataclass(frozen=True, kw_only=True)
class RunPoint(Row):
    """One moment of a simulated run: the middle of the draws and the band of 95 %."""

    time: float | None = quantity(Kind.TIME, "min", "on-time", stem="on_time", exact=True)
    converted: float | None = _share("converted", "converted")
    converted_low: float | None = _share("converted, at least", "converted_low")
    converted_high: float | None = _share("converted, at most", "converted_high")
    product: float | None = _share("product", "product")
    product_low: float | None = _share("product, at least", "product_low")
    product_high: float | None = _share("product, at most", "product_high")
    spoilt: float | None = _share("over-reacted", "over_reacted")
    off_gas: float | None = _gas("ozone in the off-gas", "off_gas")
    off_gas_low: float | None = _gas("ozone in the off-gas, at least", "off_gas_low")
    off_gas_high: float | None = _gas("ozone in the off-gas, at most", "off_gas_high")
    dissolved: float | None = quantity(
        Kind.CONCENTRATION, "mmol/L", "ozone dissolved", stem="dissolved", exact=True
    )


@dataclass(frozen=True, kw_only=True)
class SimulatedRun(Result):
    """A reaction minute by minute."""

    label: str | None = fact("reaction")
    rig: str | None = fact("rig")
    draws: int = fact("runs simulated", 0)
    on_time: Number = quantity(Kind.TIME, "min", "on-time to 99 % converted", stem="on_time")
    unfinished: float | None = quantity(
        Kind.SHARE, "%", "runs not done within the time simulated", stem="unfinished", exact=True
    )
    uptake: Number = quantity(Kind.SHARE, "%", "uptake until then", stem="uptake")
    modelled: Number = quantity(
        Kind.SHARE, "%", "uptake until done by the model alone", stem="modelled_uptake"
    )
    correction: Number = quantity(
        Kind.DIMENSIONLESS, "", "transfer that the uptake stated asks for, over the model's",
        stem="correction",
    )  # fmt: skip
    product: Number = quantity(Kind.SHARE, "%", "product then", stem="product")
    spoilt: Number = quantity(Kind.SHARE, "%", "over-reacted then", stem="over_reacted")
    look_from: float | None = quantity(Kind.TIME, "min", "look from", stem="look_from", exact=True)
    stop_by: float | None = quantity(Kind.TIME, "min", "stop by", stem="stop_by", exact=True)
    best_product: float | None = quantity(
        Kind.SHARE, "%", "mean product at stop-by", stem="product_at_stop_by", exact=True
    )
    late: Number = quantity(
        Kind.SHARE, "%", "product that one minute too long costs", stem="cost_of_a_minute_late"
    )
    off_gas_before: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "off-gas half-way", stem="off_gas_half_way"
    )
    off_gas_after: Number = quantity(
        Kind.NORMAL_CONCENTRATION, "g/Nm3", "off-gas at the end", stem="off_gas_at_end"
    )
    dissolved: Number = quantity(
        Kind.CONCENTRATION, "mmol/L", "ozone dissolved at stop-by", stem="dissolved_at_stop_by"
    )
    purge: Number = quantity(
        Kind.TIME, "min", "purge until a hundredth of it is left", stem="purge"
    )
    raw_off: Number = quantity(
        Kind.SHARE, "%", "substrate carried off by the gas by then", stem="substrate_carried_off"
    )
    made_off: Number = quantity(
        Kind.SHARE, "%", "product carried off by the gas by then", stem="product_carried_off"
    )
    solvent: Number = quantity(
        Kind.AMOUNT, "mmol", "solvent carried off by then", stem="solvent_lost"
    )
    solvent_share: Number = quantity(
        Kind.SHARE, "%", "of the liquid that was there", stem="solvent_lost"
    )
    to_solvent: Number = quantity(
        Kind.SHARE, "%", "of the ozone fed, taken by the solvent by then", stem="ozone_to_solvent"
    )
    ozone_balance: float | None = quantity(
        Kind.DIMENSIONLESS, "", "ozone not accounted for, over ozone fed, at worst",
        stem="ozone_imbalance", exact=True,
    )  # fmt: skip
    carbon_balance: float | None = quantity(
        Kind.DIMENSIONLESS, "", "substrate not accounted for, over substrate, at worst",
        stem="carbon_imbalance", exact=True,
    )  # fmt: skip
    signs: tuple[SignRow, ...] = listing("signs of the end")
    points: tuple[RunPoint, ...] = listing("minute by minute")
