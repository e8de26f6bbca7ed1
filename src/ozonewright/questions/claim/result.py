"""What the claim question answers."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.records.run import Run
from ozonewright.results import Result, Row, fact, listing, quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Measurement:
    """What was measured, and the run whose power and gas belong to it; SI."""

    run: Run
    rate: Estimate
    runs: int = 1
    setting: str | None = None
    feed_flow: Estimate | None = None
    wrong: tuple[str, ...] = ()
    """Codes of what can't be true in the run."""
    slip_known: bool = False
    """Whether a guard bottle shows what slipped past the first."""


@dataclass(frozen=True, kw_only=True)
class Band(Row):
    """One published band, and where the label and the measurement lie against it."""

    name: str = fact("published", "")
    quantity: str = fact("of", "")
    low: float = fact("from", 0.0)
    high: float = fact("to", 0.0)
    unit: str = fact("unit", "")
    label: str | None = fact("the label lies")
    measured: str | None = fact("the measurement lies")
    evidence: str = fact("evidence", "")
    source: str = fact("source", "")


@dataclass(frozen=True, kw_only=True)
class Claim(Result):
    """A label beside what was measured."""

    run: str | None = fact("run")
    setting: str | None = fact("setting")
    runs: int = fact("runs", 1)
    label: float | None = quantity(Kind.MASS_RATE, "g/h", "the label", stem="label", exact=True)
    rate: Estimate | None = quantity(Kind.MASS_RATE, "g/h", "measured", stem="rate")
    share: Estimate | None = quantity(
        Kind.SHARE, "%", "measured of the label", stem="share_of_label"
    )
    verdict: str = fact("verdict", "")
    label_yield: Estimate | None = quantity(
        Kind.YIELD, "g/kWh", "yield that the label implies", stem="label_yield"
    )
    energy_yield: Estimate | None = quantity(Kind.YIELD, "g/kWh", "yield measured", stem="yield")
    yield_limit: float | None = quantity(
        Kind.YIELD, "g/kWh", "most that energy allows", stem="yield_limit", exact=True
    )
    label_fraction: Estimate | None = quantity(
        Kind.MASS_FRACTION, "wt%", "strength that the label implies", stem="label_fraction"
    )
    mass_fraction: Estimate | None = quantity(
        Kind.MASS_FRACTION, "wt%", "strength measured", stem="fraction"
    )
    oxygen_share: Estimate | None = quantity(
        Kind.SHARE, "%", "oxygen fed that the label would need", stem="label_share_of_oxygen"
    )
    bands: tuple[Band, ...] = listing("published figures")
