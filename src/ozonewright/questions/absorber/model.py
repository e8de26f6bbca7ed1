"""From bottles and draws to columns of bubbled liquid."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import log

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.gas.composition import molar_volume
from ozonewright.physics.gas.flow import ozonised_flow
from ozonewright.physics.gas.parts.threshold import static_head
from ozonewright.physics.liquid.bubble import (
    bubble_davidson_1960,
    bubble_tate_1864,
    rise,
    superficial,
)
from ozonewright.physics.liquid.diffusivity import (
    diffusivity_johnson_1996,
    diffusivity_massman_1998,
    diffusivity_wilke_1955,
    viscosity_of_liquid,
)
from ozonewright.physics.liquid.enhancement import iodide_rate
from ozonewright.physics.liquid.solubility import (
    REFERENCE,
    henry_constant,
    partition,
    partition_in_band,
    salting_by_acid,
    salting_out,
    warmth,
)
from ozonewright.physics.liquid.swarm import Column
from ozonewright.physics.liquid.transfer import (
    kg_newman_1931,
    kl_froessling_1938,
    kl_higbie_1935,
    kl_of_bubble,
    mobility,
)
from ozonewright.questions.absorber.draws import Drawn
from ozonewright.questions.absorber.train import Bottle
from ozonewright.records.absorber import Asked
from ozonewright.references.constants import M_KI, NORMAL_TEMPERATURE, R, constant
from ozonewright.references.liquid_surface import DENSITY_AT, SURFACE_AT, liquid
from ozonewright.references.liquid_viscosity import viscosities_of
from ozonewright.references.ozone_solubility import absorption, henry_sets, solubility_band
from ozonewright.units import Kind, size

COLD = NORMAL_TEMPERATURE - 78.0
WARM = NORMAL_TEMPERATURE + 20.0
LITRE = size(Kind.CONCENTRATION, "mol/L")


@dataclass(frozen=True, slots=True)
class Stream:
    """Gas sent into the first bottle."""

    ozone: Real
    """[mol/s]"""
    gas: Real
    """Ozonised gas, dry. [mol/s]"""


@dataclass(frozen=True, slots=True)
class Liquid:
    """A liquid at its temperature."""

    density: float
    surface_tension: float
    viscosity: float
    diffusivity: Real
    partition: Real


def stream(asked: Asked, drawn: Drawn) -> Stream:
    """Return the ozone and the gas sent in."""
    ozone, feed = drawn.of(asked.output), drawn.of(asked.flow)
    return Stream(ozone, ozonised_flow(feed_flow=feed, ozone_rate=ozone))


def density_of(bottle: Bottle) -> float:
    """Return the density of a bottle's liquid at its warmth."""
    known = liquid(bottle.liquid.name)
    return known.density + known.density_slope * (bottle.temperature - DENSITY_AT)


def liquid_of(bottle: Bottle, drawn: Drawn) -> Liquid:
    """Return density, tension, viscosity, diffusivity and solubility at the bottle's warmth."""
    kelvin, known = bottle.temperature, liquid(bottle.liquid.name)
    figures = viscosities_of(bottle.liquid.name)
    viscosity = float(
        viscosity_of_liquid(
            temperature=kelvin,
            temperatures=figures.temperatures,
            viscosities=figures.viscosities,
        )
    )
    spread = drawn.factor("diffusivity", "DIFFUSIVITY_SPREAD")
    diffusivity = (
        diffusivity_johnson_1996(temperature=kelvin)
        if known.name == "water"
        else diffusivity_wilke_1955(
            molar_mass=figures.molar_mass,
            association=figures.association,
            viscosity=viscosity,
            temperature=kelvin,
        )
    )
    return Liquid(
        density=density_of(bottle),
        surface_tension=known.surface_tension + known.surface_slope * (kelvin - SURFACE_AT),
        viscosity=viscosity,
        diffusivity=spread * diffusivity,
        partition=_partition(bottle, drawn),
    )


def _partition(bottle: Bottle, drawn: Drawn) -> Real:
    kelvin = bottle.temperature
    if bottle.liquid.name != "water":
        band = solubility_band(bottle.liquid.name)
        return partition_in_band(
            place=drawn.place(f"solubility in {bottle.liquid.name}"),
            low=band.low,
            high=band.high,
            cold_low=band.cold_low,
            cold_high=band.cold_high,
            warmth=warmth(temperature=kelvin, cold=COLD, warm=WARM),
        )
    constants = [
        henry_constant(henry=one.henry, slope=one.slope, temperature=kelvin) for one in henry_sets()
    ]
    logs = np.log(np.asarray(constants, dtype=float))
    place = drawn.place("solubility in water")
    # the sets are ranked; a place between 0 and 1 takes one of them, so the spread is theirs
    ranked = np.exp(np.quantile(logs, place))
    iodide = bottle.reactant.value if bottle.holds == "iodide" and bottle.reactant else 0.0
    strength = (bottle.salt + _iodide(iodide, bottle.volume.value)) / LITRE
    salted = salting_out(
        ionic_strength=strength,
        temperature=kelvin,
        coefficient=absorption("SALTING").value,
        slope=absorption("SALTING_SLOPE").value,
    )
    return partition(henry=ranked, temperature=kelvin) * salted * _acid(bottle.acid)


def _acid(strength: float) -> Real:
    middle = float(np.exp(np.median([log(s.henry) for s in henry_sets()])))
    in_water = partition(henry=middle, temperature=REFERENCE)
    return salting_by_acid(
        strength=strength,
        ratio=absorption("ACID_RATIO").value / in_water,
        at=absorption("ACID_STRENGTH").value,
    )


def _iodide(mass: Real, volume: Real) -> Real:
    return mass / M_KI / volume


def bubble_of(bottle: Bottle, known: Liquid, flow: Real, asked: Asked, drawn: Drawn) -> Real:
    """Return the bubble's diameter: seen, or by the sparger."""
    if asked.bubble is not None:
        return drawn.of(asked.bubble)
    if bottle.sparger == "unknown":
        low, high = absorption("BUBBLE_LOW").value, absorption("BUBBLE_HIGH").value
        return low * (high / low) ** drawn.place("bubble")
    assert bottle.opening is not None
    opening: Real = drawn.of(bottle.opening)
    spread = drawn.factor("bubble by its correlation", "BUBBLE_SPREAD")
    tension, density = known.surface_tension, known.density
    if bottle.sparger == "stone":
        opening = 4.0 * tension / opening
    still = bubble_tate_1864(orifice=opening, surface_tension=tension, density=density)
    if bottle.sparger == "open tube":
        return np.maximum(still, bubble_davidson_1960(flow=flow)) * spread
    return still * drawn.figure("bubble of a stone over that of its pore", "STONE_FACTOR")


@dataclass(frozen=True, slots=True)
class Change:
    """What is taken in place of what the rig states."""

    depth: Real | None = None
    bubble: Real | None = None


def column(
    bottle: Bottle, gas: Stream, pressure: float, asked: Asked, drawn: Drawn,
    change: Change = Change(),
) -> Column:  # fmt: skip
    """Return the bottle as bubbled liquid."""
    known = liquid_of(bottle, drawn)
    depth: Real = drawn.of(bottle.depth) if change.depth is None else change.depth
    volume = drawn.of(bottle.volume)
    middle = pressure + 0.5 * static_head(density=known.density, depth=depth)
    flow = gas.gas * molar_volume(temperature=bottle.temperature, pressure=middle)
    bubble = bubble_of(bottle, known, flow, asked, drawn) if change.bubble is None else (
        change.bubble
    )  # fmt: skip
    own = rise(
        bubble=bubble,
        viscosity=known.viscosity,
        surface_tension=known.surface_tension,
        density=known.density,
    ) * drawn.factor("rise of the bubbles", "RISE_SPREAD")
    through = superficial(flow=flow, section=section_of(bottle))
    gas_side = kg_newman_1931(
        diffusivity=diffusivity_massman_1998(temperature=bottle.temperature, pressure=middle),
        bubble=bubble,
    ) * drawn.figure("circulation in the bubbles", "GAS_FACTOR")
    made = Column(
        bubble=bubble,
        rise=own + through,
        depth=depth,
        volume=volume,
        flow=flow,
        partition=known.partition,
        kl=_kl(known, bubble, own) * drawn.factor("transfer coefficient", "KL_SPREAD"),
        kg=gas_side,
        diffusivity=known.diffusivity,
    )
    return _with_reactant(made, bottle, drawn)


def section_of(bottle: Bottle) -> float:
    """Return the section of the bottle: of its bore, or of its liquid over its depth."""
    if bottle.bore is not None:
        return 0.25 * np.pi * bottle.bore.value**2
    return bottle.volume.value / bottle.depth.value


def _kl(known: Liquid, bubble: Real, own: Real) -> Real:
    return kl_of_bubble(
        still=kl_froessling_1938(
            diffusivity=known.diffusivity,
            rise=own,
            bubble=bubble,
            kinematic_viscosity=known.viscosity / known.density,
        ),
        moving=kl_higbie_1935(diffusivity=known.diffusivity, rise=own, bubble=bubble),
        mobility=mobility(
            bubble=bubble,
            still=absorption("RIGID_BELOW").value,
            moving=absorption("MOBILE_ABOVE").value,
        ),
    )


def _with_reactant(made: Column, bottle: Bottle, drawn: Drawn) -> Column:
    if bottle.holds == "nothing" or bottle.reactant is None:
        return made
    amount = drawn.of(bottle.reactant)
    if bottle.holds == "substrate":
        assert bottle.rate_constant is not None
        return replace(
            made,
            reactant=amount,
            rate_constant=drawn.of(bottle.rate_constant),
            diffusivity_ratio=drawn.figure("diffusivity of the substrate", "SUBSTRATE_DIFFUSIVITY"),
        )
    constant_of_iodide = iodide_rate(
        factor=absorption("IODIDE_FACTOR").value,
        energy=absorption("IODIDE_ENERGY").value,
        temperature=bottle.temperature,
        gas_constant=R,
    ) * drawn.factor("rate constant of iodide", "IODIDE_SPREAD")
    return replace(
        made,
        reactant=_iodide(amount, made.volume),
        rate_constant=constant_of_iodide,
        per_ozone=constant("IODIDE_PER_OZONE").value,
        diffusivity_ratio=absorption("IODIDE_DIFFUSIVITY").value,
    )
