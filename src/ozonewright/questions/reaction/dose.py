"""Demand, output and uptake to an on-time, with their uncertainties: one sheet for all of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from ozonewright.errors import Inconsistent
from ozonewright.physics.assay.plan import ozone_for_titre
from ozonewright.physics.chemistry.dosing import (
    dosing_time,
    on_time_with_starts,
    starts_needed,
    uptake_from_slip,
)
from ozonewright.physics.chemistry.heat import reaction_power
from ozonewright.questions.reaction.given import Feed, Structure, Supply, Taken
from ozonewright.records.reaction import Reaction, Slip, Substrate
from ozonewright.references.constants import constant
from ozonewright.uncertain import Estimate, Measured, propagate
from ozonewright.units import Kind, number

Values = Mapping[str, Any]
REACH = 3.0
"""Standard uncertainties within which an output or uptake must stay above nought."""


@dataclass
class Sheet:
    """The inputs by key, and the outputs that can be worked out from them."""

    inputs: dict[str, Measured] = field(default_factory=dict)

    def take(self, key: str, value: Measured | None) -> bool:
        """Take an input where it is known, and say whether it is."""
        if value is None:
            return False
        self.inputs[key] = value
        return True


@dataclass(frozen=True, slots=True)
class Dose:
    """What came out of the sheet; None where something is unknown."""

    outputs: Mapping[str, Estimate]
    starts: int
    heat: Measured
    unsure: tuple[str, ...] = ()
    """``output`` or ``uptake`` where it is known too poorly for any time."""

    def get(self, name: str) -> Estimate | None:
        """Return one output, or None."""
        return self.outputs.get(name)

    def value(self, name: str) -> float | None:
        """Return the best estimate of one output, or None."""
        found = self.outputs.get(name)
        return None if found is None else found.value


def heat_of(reaction: Reaction) -> Measured:
    """Return the heat for each mole of ozone: typed, or the shipped figure."""
    if reaction.heat is not None:
        return reaction.heat
    shipped = constant("OZONOLYSIS_HEAT")
    return Measured(
        shipped.value, shipped.u or 0.0, "reaction heat", Kind.MOLAR_ENERGY, basis="table"
    )


def amount_of(substrate: Substrate, structure: Structure) -> float:
    """Return the best estimate of how much of a substrate there is. [mol]"""
    if substrate.amount is not None:
        return substrate.amount.value
    assert substrate.mass is not None
    purity = substrate.purity.value if substrate.purity else 1.0
    return substrate.mass.value * purity / structure.molar_mass


def dose(
    reaction: Reaction,
    structures: Sequence[Structure],
    supply: Supply,
    taken: Taken,
    feed: Feed,
) -> Dose:
    """Return demand, on-time, heat and oxygen with their uncertainties."""
    sheet = Sheet()
    _substrates(sheet, reaction)
    rated = sheet.take("rate", supply.rate)
    unsure = tuple(_unsure(supply, taken))
    taking = _uptake(sheet, reaction.slip, taken) if rated and not unsure else False
    heat = heat_of(reaction)
    sheet.take("heat", heat)
    sheet.take("start_loss", reaction.start_loss)
    sheet.take("flow", feed.flow)
    starts = 1
    if taking:
        best = _Calculation(reaction, structures, feed, 1)(**_best(sheet))
        _refuse_more_than_made(reaction, float(best["uptake"]))
        starts = _starts(reaction, best)
    calculation = _Calculation(reaction, structures, feed, starts)
    outputs = propagate(calculation, sheet.inputs)
    return Dose(outputs, starts, heat, unsure)


def _unsure(supply: Supply, taken: Taken) -> Iterator[str]:
    """Yield what may be nothing at all: three standard uncertainties reach down to nought."""
    for name, known in (("output", supply.rate), ("uptake", taken.uptake)):
        if known is not None and known.value <= REACH * known.u:
            yield name


def _refuse_more_than_made(reaction: Reaction, uptake: float) -> None:
    if uptake > 0.0:
        return
    titre = reaction.slip.titre if reaction.slip else None
    raise Inconsistent(
        "more ozone was caught behind the flask than was made",
        where="reaction.slip",
        got=f"{number(titre.value, Kind.VOLUME, 'mL'):.4g} mL" if titre else "",
        fix="Check titre, titrant and on-time of the tail bottle, and the output.",
    )


def _best(sheet: Sheet) -> dict[str, float]:
    return {key: measured.value for key, measured in sheet.inputs.items()}


def _substrates(sheet: Sheet, reaction: Reaction) -> None:
    for place, substrate in enumerate(reaction.substrates):
        sheet.take(f"amount_{place}", substrate.amount)
        sheet.take(f"mass_{place}", substrate.mass)
        sheet.take(f"purity_{place}", substrate.purity)


def _uptake(sheet: Sheet, slip: Slip | None, taken: Taken) -> bool:
    if slip is not None and slip.titre is not None:
        sheet.take("titre", slip.titre)
        sheet.take("titrant", slip.titrant)
        sheet.take("titre_blank", slip.blank)
        return sheet.take("titre_on_time", slip.on_time)
    return sheet.take("uptake", taken.uptake)


def _starts(reaction: Reaction, values: Values) -> int:
    if reaction.timer_on is None:
        return 1
    loss = reaction.start_loss.value if reaction.start_loss else 0.0
    return starts_needed(
        dosing_time=float(values["dosing"]), timer_on=reaction.timer_on.value, start_loss=loss
    )


@dataclass(frozen=True, slots=True)
class _Calculation:
    """The whole sum, for single values and for draws alike."""

    reaction: Reaction
    structures: Sequence[Structure]
    feed: Feed
    starts: int

    def __call__(self, **v: Any) -> dict[str, Any]:
        demand = sum(
            self._amount(number, v) * self._equivalents(structure)
            for number, structure in enumerate(self.structures)
        )
        out = {"demand": demand, "heat_in_all": demand * v["heat"]}
        if "rate" not in v:
            return out
        out["rate"] = v["rate"]
        uptake = self._share(v)
        if uptake is None:
            return out
        lost = v.get("start_loss", 0.0)
        out["uptake"] = uptake
        out["dosing"] = dosing_time(demand=demand, rate=v["rate"], uptake=uptake)
        out["on_time"] = on_time_with_starts(
            dosing_time=out["dosing"], starts=self.starts, start_loss=lost
        )
        out["heat"] = reaction_power(rate=v["rate"], uptake=uptake, reaction_heat=v["heat"])
        if "flow" in v and self.feed.oxygen is not None:
            rests = self._rests()
            out["oxygen"] = v["flow"] * self.feed.oxygen * (out["on_time"] + rests)
        return out

    def _amount(self, number: int, v: Values) -> Any:
        if f"amount_{number}" in v:
            return v[f"amount_{number}"]
        purity = v.get(f"purity_{number}", 1.0)
        return v[f"mass_{number}"] * purity / self.structures[number].molar_mass

    def _equivalents(self, structure: Structure) -> float:
        typed = self.reaction.equivalents
        return typed.value if typed is not None else structure.ozone

    def _share(self, v: Values) -> Any:
        if "titre" in v:
            slipped = ozone_for_titre(
                titre=v["titre"] - v.get("titre_blank", 0.0), concentration=v["titrant"]
            )
            delivered = v["rate"] * v["titre_on_time"]
            return uptake_from_slip(slipped=slipped, delivered=delivered)
        return v.get("uptake")

    def _rests(self) -> float:
        off = self.reaction.timer_off
        return (self.starts - 1) * off.value if off is not None else 0.0
