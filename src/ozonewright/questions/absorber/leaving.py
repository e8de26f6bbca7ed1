"""What leaves the flask with the gas, and what the solvent takes of the ozone, drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ozonewright.errors import OutOfBounds
from ozonewright.physics import Real
from ozonewright.physics.hazards.solvent import vapour_of
from ozonewright.physics.hazards.vapour import vapour_fraction
from ozonewright.physics.liquid.enhancement import warmed_rate
from ozonewright.physics.liquid.semibatch import Flask
from ozonewright.physics.liquid.transfer import overall
from ozonewright.physics.liquid.volatility import (
    drying,
    gas_over_liquid,
    stripping,
    vapour_pressure_of_boiling_point,
)
from ozonewright.questions.absorber.draws import Array, Drawn
from ozonewright.questions.absorber.model import Stream, density_of
from ozonewright.questions.absorber.train import Bottle
from ozonewright.records.flask import Flasked, Reactant, Volatile
from ozonewright.references.constants import R
from ozonewright.references.liquid_viscosity import viscosities_of
from ozonewright.references.ozone_solubility import absorption
from ozonewright.references.ozone_solvents import OzoneWithSolvent, ozone_with
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

ALL_VAPOUR = 0.9
"""Vapour in the gas that leaves from which the flask as good as boils."""


@dataclass(frozen=True, slots=True)
class Wet:
    """The solvent of a flask: what the gas carries of it, and what it takes of the ozone."""

    fraction: Array
    """Vapour in the gas that leaves. [1]"""
    drying: Array
    """[1/s]"""
    liquid: float
    """[mol/m3]"""
    takes: Array
    """Ozone that goes to it. [1/s]"""


def wet(bottle: Bottle, gas: Stream, pressure: float, volume: Array, drawn: Drawn) -> Wet:
    """Return what the gas carries of the solvent, and what the solvent takes of the ozone.

    Raises
    ------
    OutOfBounds
        The gas that leaves would be nearly all vapour.
    """
    name, kelvin = bottle.liquid.name, bottle.temperature
    vapour = vapour_of(substance=name, temperature=kelvin)
    share = drawn.around(f"vapour pressure of {name}", float(vapour.spread)) * vapour_fraction(
        vapour_pressure=vapour.pressure, pressure=pressure
    )
    if np.max(share) >= ALL_VAPOUR:
        raise OutOfBounds(
            f"{name} as good as boils: the gas that leaves is nearly all vapour",
            where="reaction.temperature", got=f"{100.0 * float(share[0]):.0f} % of it",
            fix="Take a colder bath, or a solvent that boils higher.",
        )  # fmt: skip
    liquid = density_of(bottle) / viscosities_of(name).molar_mass
    none = np.zeros(drawn.draws + 1)
    return Wet(
        fraction=share,
        drying=none + drying(
            gas_flow=gas.gas, fraction=share, molar_volume=1.0 / liquid, volume=volume
        ),
        liquid=liquid,
        takes=none + _taken(name, kelvin, liquid, drawn),
    )  # fmt: skip


def _taken(name: str, kelvin: float, liquid: float, drawn: Drawn) -> Real:
    known = ozone_with(name)
    if known is None:
        return 0.0
    spread = drawn.within(f"rate of ozone with {name}", "SOLVENT_SPREAD")
    cold = warmed_rate(
        energy=drawn.of(_energy(known)),
        temperature=kelvin,
        reference=known.temperature,
        gas_constant=R,
    )
    return known.rate_constant * liquid * spread * cold


def _energy(known: OzoneWithSolvent) -> Measured:
    name = f"activation energy of {known.name}"
    return Measured(known.energy, known.u_energy, name, Kind.MOLAR_ENERGY, basis="table")


def stripped(made: Flask, one: Volatile | None, name: str, kelvin: float, drawn: Drawn) -> Array:
    """Return how fast the gas carries a substance off; nothing where nothing is known. [1/s]"""
    none = np.zeros(drawn.draws + 1)
    if one is None:
        return none
    ratio = gas_over_liquid(
        vapour_pressure=_pressure(one, name, kelvin, drawn),
        activity=drawn.within(f"activity of {name}", "ACTIVITY_SPREAD"),
        temperature=kelvin,
        liquid=made.liquid,
    )
    slower = made.diffusivity_ratio**0.5
    through = overall(kg=made.kg, kl=made.kl * slower, partition=1.0 / ratio, enhancement=1.0)
    rate = stripping(
        flow=made.flow, volume=made.volume, ratio=ratio, through=through,
        area_time=made.area_time,
    )  # fmt: skip
    return none + rate


def _pressure(one: Volatile, name: str, kelvin: float, drawn: Drawn) -> Real:
    if one.vapour_pressure is not None:
        return drawn.of(one.vapour_pressure)
    assert one.boiling_point is not None
    which = "_OH" if one.donates else ""
    told = vapour_pressure_of_boiling_point(
        boiling_point=drawn.of(one.boiling_point),
        temperature=kelvin,
        fishtine=absorption(f"FISHTINE{which}").value,
    )
    return told * drawn.factor(f"vapour pressure of {name}", f"VAPOUR_SPREAD{which}")


def not_known(flask: Flasked) -> Iterator[str]:
    """Yield what is taken as none because nothing is known of it."""
    if ozone_with(flask.solvent) is None:
        yield f"ozone with {flask.solvent}"
    for one in flask.reactants:
        yield from _not_known(one)


def _not_known(one: Reactant) -> Iterator[str]:
    if one.substrate is None:
        yield f"vapour pressure of {one.name}"
    if one.product is None:
        yield f"vapour pressure of the product of {one.name}"
