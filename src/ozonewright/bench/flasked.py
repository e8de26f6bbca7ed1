"""A reaction in the flask of a rig, simulated."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ozonewright.errors import MissingValue
from ozonewright.questions.absorber import SimulatedRun, simulated_run
from ozonewright.questions.reaction.dose import amount_of
from ozonewright.questions.reaction.given import Place, Structure
from ozonewright.questions.reaction.structure import PLAIN, Cut
from ozonewright.questions.reaction.volatile import volatile_product, volatile_substrate
from ozonewright.records.absorber import Asked
from ozonewright.records.flask import Attack, Flasked, Reactant
from ozonewright.records.reaction import Reaction, Substrate
from ozonewright.records.rig import Rig
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

QUICK = 200
"""Runs simulated for a plan."""


def simulated(
    rig: Rig, reaction: Reaction, structures: Sequence[Structure], asked: Asked
) -> SimulatedRun:
    """Return a reaction in the flask of a rig, minute by minute."""
    return simulated_run(rig, asked, flasked(reaction, structures, rig))


def simulated_for_plan(
    rig: Rig, reaction: Reaction, structures: Sequence[Structure], asked: Asked
) -> SimulatedRun:
    """Return the same in fewer draws; what was asked before is not worked out again."""
    return _worked_out(_Asking(rig, flasked(reaction, structures, rig), asked))


@dataclass(frozen=True, slots=True)
class _Asking:
    """A question to the model; told apart from others by all that it says."""

    rig: Rig
    kinetics: Flasked
    asked: Asked

    def __hash__(self) -> int:
        return hash((self.kinetics, self.asked))


@lru_cache(maxsize=16)
def _worked_out(one: _Asking) -> SimulatedRun:
    return simulated_run(one.rig, one.asked, one.kinetics, draws=QUICK)


def flasked(reaction: Reaction, structures: Sequence[Structure], rig: Rig) -> Flasked:
    """Return a reaction as its kinetics see it.

    Raises
    ------
    MissingValue
        No solvent, volume or temperature.
    """
    if not reaction.solvent or reaction.volume is None or reaction.temperature is None:
        raise MissingValue(
            "a run in a flask needs solvent, volume and temperature",
            where="reaction",
            fix='Write solvent = "methanol", volume = "100 mL", temperature = "-40 °C".',
        )
    return Flasked(
        label=reaction.label,
        solvent=max(reaction.solvent, key=lambda one: one[1])[0],
        mixed=len(reaction.solvent) > 1,
        volume=reaction.volume,
        temperature=reaction.temperature,
        reactants=tuple(
            _reactant(one, structure, place, reaction.cleave or PLAIN)
            for place, (one, structure) in enumerate(
                zip(reaction.substrates, structures, strict=True), start=1
            )
        ),
        trap=_trap(reaction, rig),
    )


def _trap(reaction: Reaction, rig: Rig) -> float | None:
    """Return the liquid of the tail bottle: the reaction's, else that of the rig."""
    if reaction.tail.volume is not None:
        return reaction.tail.volume.value
    return next((one.value("volume") for one in rig.of_kind("tail bottle")), None)


def _reactant(substrate: Substrate, structure: Structure, place: int, cut: Cut) -> Reactant:
    typed = substrate.amount or substrate.mass
    assert typed is not None
    value = amount_of(substrate, structure)
    spread = typed.u / typed.value if typed.value else 0.0
    name = substrate.name or structure.formula
    return Reactant(
        name=name,
        amount=Measured(value, spread * value, f"amount of substrate {place}", Kind.AMOUNT,
                        shape=typed.shape, basis=typed.basis),
        attacks=tuple(_attack(one) for one in structure.sites),
        substrate=volatile_substrate(substrate, place),
        product=volatile_product(substrate, place, cut),
    )  # fmt: skip


def _attack(place: Place) -> Attack:
    return Attack(
        count=place.count,
        rate_constant=place.rate_constant,
        in_water=place.medium is not None and place.medium.startswith("water"),
        ring="aromatic ring" in place.kind,
        exact=place.rate_of is None,
        wanted=place.attacked,
    )
