"""From an expected output to an on-time, weights and volumes in their good range."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from ozonewright.errors import Inconsistent
from ozonewright.physics.assay.iodometry import iodide_ratio
from ozonewright.physics.assay.plan import (
    iodide_for_ozone,
    ozone_for_titre,
    standard_for_titre,
    titre_for_ozone,
)
from ozonewright.physics.chemistry.acid import acid_needed, protons_released
from ozonewright.references.acids import acid
from ozonewright.references.constants import (
    M_KI,
    M_KIO3,
    THIOSULFATE_PER_IODATE,
)
from ozonewright.references.limits import limit
from ozonewright.results import Note, Result, fact, quantity
from ozonewright.uncertain import Estimate, Measured, propagate
from ozonewright.units import Kind, number, size

MILLILITRE = size(Kind.VOLUME, "mL")
SECOND = size(Kind.TIME, "s")
WISHED_TITRE = (15.0 * MILLILITRE, 20.0 * MILLILITRE)
"""Good for a 25 or 50 mL burette (common practice, no source)."""
PART_OF_SMALL_BURETTE = 0.7
"""Share of a burette that is too small for the wished titre."""
TIME_STEP = 10.0 * SECOND
SHORTEST = 60.0 * SECOND
"""Below this, two seconds at the stopwatch are more than 3 % of the result."""
SHORTEST_AT_ALL = 15.0 * SECOND
USUAL_GUARD = 0.03
"""Share of the ozone found in the guard bottle of a sound train (common practice, no source)."""
SURPLUS_ACID = 1.5
"""Acid poured over acid needed (common practice, no source)."""
STANDARD_FLASK = 250.0 * MILLILITRE
STANDARD_ALIQUOT = 10.0 * MILLILITRE


@dataclass(frozen=True, slots=True)
class Wish:
    """What is expected and what is on hand; SI. None means not stated."""

    rate: Measured
    """Ozone expected. [mol/s]"""
    titrant: float
    burette: float
    volume: float | None = None
    iodide: float | None = None
    """Potassium iodide on hand for each bottle. [kg]"""
    flow: float | None = None
    acid: str = "sulfuric acid"
    acid_strength: float | None = None
    on_time: float | None = None


@dataclass(frozen=True, kw_only=True)
class Recipe(Result):
    """The next titration, with the numbers already in it."""

    on_time: float | None = quantity(Kind.TIME, "min", "on-time", stem="on_time", exact=True)
    on_time_seconds: float | None = quantity(Kind.TIME, "s", "on-time", stem="on_time", exact=True)
    titre: Estimate | None = quantity(
        Kind.VOLUME, "mL", "titre to expect, first bottle", stem="titre"
    )
    guard_titre: float | None = quantity(
        Kind.VOLUME, "mL", "titre to expect, guard bottle", stem="guard_titre", exact=True
    )
    ozone: float | None = quantity(Kind.AMOUNT, "mmol", "ozone to expect", stem="ozone", exact=True)
    iodide: float | None = quantity(
        Kind.MASS, "g", "potassium iodide, each bottle", stem="iodide", exact=True
    )
    volume: float | None = quantity(
        Kind.VOLUME, "mL", "water, each bottle", stem="volume", exact=True
    )
    acid: str = fact("acid", "")
    acid_amount: float | None = quantity(
        Kind.AMOUNT, "mmol", "acid, each bottle", stem="acid", exact=True
    )
    acid_volume: float | None = quantity(
        Kind.VOLUME, "mL", "acid solution, each bottle", stem="acid_solution", exact=True
    )
    acid_strength: float | None = quantity(
        Kind.CONCENTRATION, "mol/L", "acid solution", stem="acid_solution", exact=True
    )
    ratio: float | None = quantity(
        Kind.DIMENSIONLESS, "", "iodide over the least needed", stem="iodide_ratio", exact=True
    )
    titrant: float | None = quantity(
        Kind.CONCENTRATION, "mol/L", "thiosulfate", stem="titrant", exact=True
    )
    burette: float | None = quantity(Kind.VOLUME, "mL", "burette", stem="burette", exact=True)
    iodate: float | None = quantity(
        Kind.MASS, "g", "potassium iodate for 250 mL", stem="iodate", exact=True
    )
    iodate_titre: float | None = quantity(
        Kind.VOLUME, "mL", "titre of 10 mL of it", stem="iodate_titre", exact=True
    )


def recipe(wish: Wish) -> Recipe:
    """Return the set-up of the next titration, or say which change would allow one.

    Raises
    ------
    Inconsistent
        The burette, the iodide or the flow would be exceeded.
    """
    _check_flow(wish)
    on_time = wish.on_time if wish.on_time is not None else _on_time(wish)
    ozone = wish.rate.value * on_time
    titre = propagate(
        lambda rate: titre_for_ozone(ozone=rate * on_time, concentration=wish.titrant),
        {"rate": wish.rate},
    )
    assert isinstance(titre, Estimate)
    _check_burette(wish, titre.value, on_time)
    volume = wish.volume if wish.volume is not None else limit("BOTTLE_VOLUME").value
    iodide = _iodide(wish, ozone, volume)
    acid_amount, acid_volume = _acid(wish, ozone, volume)
    iodate_titre = sum(_wished(wish.burette)) / 2.0
    return Recipe(
        on_time=on_time,
        on_time_seconds=on_time,
        titre=titre,
        guard_titre=USUAL_GUARD * titre.value,
        ozone=ozone,
        iodide=iodide,
        volume=volume,
        acid=wish.acid,
        acid_amount=acid_amount,
        acid_volume=acid_volume,
        acid_strength=wish.acid_strength,
        ratio=float(iodide_ratio(iodide=iodide / M_KI, ozone=ozone)),
        titrant=wish.titrant,
        burette=wish.burette,
        iodate=float(
            standard_for_titre(
                titre=iodate_titre,
                concentration=wish.titrant,
                equivalents=THIOSULFATE_PER_IODATE,
                molar_mass=M_KIO3,
                flask=STANDARD_FLASK,
                aliquot=STANDARD_ALIQUOT,
            )
        ),
        iodate_titre=iodate_titre,
        notes=tuple(_notes(wish, on_time, ozone, titre.value)),
        unknowns=tuple(
            name
            for name in ("volume", "iodide", "flow", "acid_strength")
            if getattr(wish, name) is None
        ),
        sources=("ioa_1996", "sac_undated", "apha_1998", "usp_2006"),
        methods=("iodometry: one ozone frees one iodine, which takes two thiosulfate",),
    )


def _wished(burette: float) -> tuple[float, float]:
    """Return the range of titres to aim at: 15 to 20 mL, or what a small burette allows."""
    low, high = WISHED_TITRE
    if high <= burette * limit("BURETTE_HIGH").value:
        return low, high
    most = PART_OF_SMALL_BURETTE * burette
    return most, most


def _on_time(wish: Wish) -> float:
    """Return an on-time in whole steps whose titre lies in the wished range."""
    low, high = _wished(wish.burette)
    middle = float(ozone_for_titre(titre=(low + high) / 2.0, concentration=wish.titrant))
    exact = middle / wish.rate.value
    if exact < SHORTEST_AT_ALL:
        stronger = wish.titrant * SHORTEST / exact
        raise Inconsistent(
            f"the titrant is too weak: {number(exact, Kind.TIME, 's'):.0f} s of gas would fill "
            "the burette",
            where="titrant",
            got=f"{number(wish.titrant, Kind.CONCENTRATION, 'mol/L'):.4g} mol/L",
            fix=f"Use about {number(stronger, Kind.CONCENTRATION, 'mol/L'):.2g} mol/L, or titrate "
            "an aliquot of the bottle.",
        )
    return max(round(exact / TIME_STEP), 1) * TIME_STEP if exact > 3.0 * TIME_STEP else exact


def _check_flow(wish: Wish) -> None:
    highest = limit("FLOW_HIGH").value
    if wish.flow is not None and wish.flow > highest * (1.0 + 1e-9):
        raise Inconsistent(
            "more gas than the published procedure lets through one bottle (1 L/min)",
            where="flow",
            got=f"{number(wish.flow, Kind.VOLUME_FLOW, 'L/min'):.3g} L/min",
            fix="Split the gas and trap a known part of it, or lower the flow to 1 L/min; "
            "the output will differ at another flow.",
        )


def _check_burette(wish: Wish, titre: float, on_time: float) -> None:
    full = wish.burette * limit("BURETTE_HIGH").value
    if titre <= full:
        return
    shorter = on_time * PART_OF_SMALL_BURETTE * wish.burette / titre
    stronger = wish.titrant * titre / (PART_OF_SMALL_BURETTE * wish.burette)
    raise Inconsistent(
        f"the titre of {number(titre, Kind.VOLUME, 'mL'):.1f} mL is more than the burette holds",
        where="on_time",
        got=f"{number(on_time, Kind.TIME, 's'):.0f} s",
        fix=f"Run {number(shorter, Kind.TIME, 's'):.0f} s, or use thiosulfate of about "
        f"{number(stronger, Kind.CONCENTRATION, 'mol/L'):.2g} mol/L.",
    )


def _iodide(wish: Wish, ozone: float, volume: float) -> float:
    """Return the iodide for each bottle: published strength, five times the least, or as stated."""
    least = limit("IODIDE_RATIO_LOW").value
    needed = float(iodide_for_ozone(ozone=ozone, ratio=least)) * M_KI
    if wish.iodide is None:
        return max(limit("IODIDE_STRENGTH").value * volume, needed)
    if wish.iodide < needed:
        weaker = number(wish.titrant * wish.iodide / needed, Kind.CONCENTRATION, "mol/L")
        raise Inconsistent(
            f"too little iodide: {number(needed, Kind.MASS, 'g'):.2g} g are five times the least",
            where="iodide",
            got=f"{number(wish.iodide, Kind.MASS, 'g'):.3g} g",
            fix=f"Weigh more, or take {weaker:.2g} mol/L thiosulfate and a run as much shorter.",
        )
    return wish.iodide


def _acid(wish: Wish, ozone: float, volume: float) -> tuple[float, float | None]:
    """Return acid and its solution for each bottle, with a margin, in whole millilitres."""
    pH = limit("ACID_PH_HIGH").value
    per_molecule = float(protons_released(pH=pH, pK=acid(wish.acid).pK))
    needed = float(acid_needed(ozone=ozone, volume=volume, pH=pH)) * SURPLUS_ACID / per_molecule
    if wish.acid_strength is None:
        return needed, None
    millilitres = ceil(needed / wish.acid_strength / MILLILITRE)
    poured = max(millilitres * MILLILITRE, limit("ACID_VOLUME").value)
    if poured > volume / 2.0:
        raise Inconsistent(
            f"the bottle would need {number(poured, Kind.VOLUME, 'mL'):.0f} mL of this acid",
            where="acid",
            got=f"{wish.acid}, {number(wish.acid_strength, Kind.CONCENTRATION, 'mol/L'):.3g} mol/L",
            fix="Use a stronger solution, or sulfuric or hydrochloric acid.",
        )
    return poured * wish.acid_strength, poured


def _notes(wish: Wish, on_time: float, ozone: float, titre: float) -> Iterator[Note]:
    if on_time < SHORTEST:
        yield Note("recipe-short", values={"on_time": on_time, "share": SECOND / on_time})
    low = limit("BURETTE_LOW").value * wish.burette
    if titre < low:
        yield Note("recipe-titre-small", values={"titre": titre, "least": low})
    about = limit("OZONE_TOTAL").value
    if not about / 3.0 <= ozone <= 3.0 * about:
        yield Note("recipe-total-far", "advice", {"ozone": ozone})
    if wish.flow is None:
        yield Note("recipe-flow-unknown", "advice")
    if wish.rate.u > 0.25 * wish.rate.value:
        yield Note("recipe-output-guessed", values={"share": wish.rate.u / wish.rate.value})
