"""A reaction in the flask of a rig, simulated."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from ozonewright.bench.rig import rig_of
from ozonewright.errors import MissingValue
from ozonewright.questions.absorber import SimulatedRun, simulated_run, uptake_of
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

QUICK = 150
"""Runs simulated for a plan, which asks for the uptake alone."""


def simulated(
    rig: Rig, reaction: Reaction, structures: Sequence[Structure], asked: Asked
) -> SimulatedRun:
    """Return a reaction in the flask of a rig, minute by minute."""
    return simulated_run(rig, asked, flasked(reaction, structures))


def modelled_uptake(
    rig: Mapping[str, Any],
    reaction: Reaction,
    structures: Sequence[Structure],
    output: Measured,
    flow: Measured,
) -> Measured | None:
    """Return the uptake of a reaction by the model; None where the run does not end."""
    asked = Asked(output=output, flow=flow, flow_stated=True)
    return _worked_out(_Asking(rig_of(rig), flasked(reaction, structures), asked))


@dataclass(frozen=True, slots=True)
class _Asking:
    """A question to the model; told apart from others by all that it says."""

    rig: Rig
    kinetics: Flasked
    asked: Asked

    def __hash__(self) -> int:
        return hash((self.kinetics, self.asked))


@lru_cache(maxsize=16)
def _worked_out(one: _Asking) -> Measured | None:
    run = simulated_run(one.rig, one.asked, one.kinetics, draws=QUICK)
    return uptake_of(run, one.rig.label or "the rig")


def flasked(reaction: Reaction, structures: Sequence[Structure]) -> Flasked:
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
    )


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
