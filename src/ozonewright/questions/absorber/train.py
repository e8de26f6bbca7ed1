"""The bottles of a rig that take up ozone, and what each must state."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from ozonewright.errors import AppError, Faults, Inconsistent, MissingValue, OutOfBounds
from ozonewright.physics.liquid.bubble import height_of_liquid
from ozonewright.records.flask import Flasked
from ozonewright.records.rig import Part, Rig
from ozonewright.references.constants import NORMAL_TEMPERATURE
from ozonewright.references.solvents import Solvent, solvent
from ozonewright.uncertain import Measured
from ozonewright.units import Kind, number

Holds = Literal["iodide", "substrate", "nothing"]
Sparger = Literal["open tube", "pore", "stone", "seen", "unknown"]
ROOMY = 1.05
"""Depth over the height of the liquid that bottles with a round bottom are allowed."""
USUAL_TEMPERATURE = NORMAL_TEMPERATURE + 20.0
"""Taken where neither bottle nor room states one, and told. [K]"""


@dataclass(frozen=True, slots=True)
class Bottle:
    """One bottle with the sparger before it."""

    name: str
    place: str
    liquid: Solvent
    temperature: float
    temperature_stated: bool
    depth: Measured
    volume: Measured
    bore: Measured | None
    sparger: Sparger
    opening: Measured | None
    """Bore of an open tube, pore, or bubble point, by its kind."""
    holds: Holds
    reactant: Measured | None
    """Mass of potassium iodide, or concentration of a substrate."""
    rate_constant: Measured | None
    acid: float
    """[mol/m3]"""
    salt: float
    """Ionic strength besides iodide and acid. [mol/m3]"""


def train(rig: Rig) -> tuple[Bottle, ...]:
    """Return the bottles that take up ozone, in flow order.

    Raises
    ------
    Faults
        No bottle, or one that does not state what the answer rests on.
    """
    parts = [part for part in rig.of_kind("bottle") if part.words.get("role") != "drying"]
    if not parts:
        raise MissingValue(
            "no bottle: nothing takes up ozone here",
            where="part",
            fix='Write a part of kind = "bottle" with liquid, volume and depth.',
        )
    faults = [fault for part in parts for fault in _faults(part)]
    if faults:
        raise Faults(faults)
    return tuple(_bottle(rig, part) for part in parts)


def flask_of(rig: Rig, flask: Flasked) -> Bottle:
    """Return the flask of a rig, filled as a reaction says: the part of that role, or the first.

    Raises
    ------
    Faults
        No bottle, or one without depth.
    """
    parts = [part for part in rig.of_kind("bottle") if part.words.get("role") != "drying"]
    chosen = next((part for part in parts if part.words.get("role") == "flask"), None)
    if chosen is None and not parts:
        raise MissingValue(
            "no bottle: nothing takes up ozone here",
            where="part",
            fix='Write a part of kind = "bottle" and role = "flask" with its depth.',
        )
    part = chosen or parts[0]
    kept = ("depth", "bore", "capacity")
    quantities = {name: part.quantities[name] for name in kept if name in part.quantities}
    filled = replace(
        part,
        quantities=quantities | {"volume": flask.volume, "bath": flask.temperature},
        words={**part.words, "liquid": flask.solvent},
    )
    faults = list(_faults(filled))
    if faults:
        raise Faults(faults)
    return _bottle(rig, filled)


def _faults(part: Part) -> Iterator[AppError]:
    needed = {"depth": "15 cm", "volume": "200 mL"}
    for field, example in needed.items():
        if field not in part.quantities:
            yield MissingValue(
                "uptake rests on this", where=f"{part.place}.{field}",
                fix=f'Write {field} = "{example}".',
            )  # fmt: skip
    if part.value("depth") == 0.0:
        yield OutOfBounds(
            "at depth 0 no gas passes through the liquid", where=f"{part.place}.depth", got="0",
            fix="Give the depth of the sparger's mouth below the surface, as measured.",
        )  # fmt: skip
    yield from _too_deep(part)
    if "liquid" not in part.words:
        yield MissingValue(
            "solubility rests on this", where=f"{part.place}.liquid", fix='Write liquid = "water".'
        )
        return
    try:
        known = solvent(part.words["liquid"])
    except AppError as error:
        yield error.at(f"{part.place}.liquid")
        return
    yield from _contents(part, known)


def _too_deep(part: Part) -> Iterator[AppError]:
    depth, volume, bore = (part.value(name) for name in ("depth", "volume", "bore"))
    if not (depth and volume and bore):
        return
    height = float(height_of_liquid(volume=volume, bore=bore))
    if depth > ROOMY * height:
        yield Inconsistent(
            "the sparger is deeper than the liquid stands", where=f"{part.place}.depth",
            got=f"{number(depth, Kind.LENGTH, 'cm'):.3g} cm",
            fix=f"{number(volume, Kind.VOLUME, 'L'):.4g} L in a bore of "
            f"{number(bore, Kind.LENGTH, 'mm'):.4g} mm stand "
            f"{number(height, Kind.LENGTH, 'cm'):.3g} cm high: check depth, bore and volume.",
        )  # fmt: skip


def _contents(part: Part, known: Solvent) -> Iterator[AppError]:
    iodide, substrate = "potassium_iodide" in part.quantities, "substrate" in part.quantities
    if iodide and substrate:
        yield Inconsistent(
            "two things take the ozone", where=f"{part.place}.substrate",
            fix="State potassium_iodide or substrate, not both.",
        )  # fmt: skip
    if known.name != "water":
        for field in ("potassium_iodide", "sulfuric_acid", "salt"):
            if field in part.quantities:
                yield Inconsistent(
                    "the figures of this are of water", where=f"{part.place}.{field}",
                    got=known.name, fix="Leave it out, or write liquid = \"water\".",
                )  # fmt: skip
    if substrate != ("rate_constant" in part.quantities):
        lacking = "rate_constant" if substrate else "substrate"
        yield MissingValue(
            "how much substrate there is and how fast it reacts belong together",
            where=f"{part.place}.{lacking}",
            fix='Write substrate = "0.1 mol/L" and rate_constant = "3e5 L/mol/s"; the reaction '
            "command names published constants.",
        )


def _bottle(rig: Rig, part: Part) -> Bottle:
    ambient = rig.ambient.temperature
    stated = part.quantities.get("bath") or part.quantities.get("temperature") or ambient
    known = solvent(part.words["liquid"])
    temperature = stated.value if stated else USUAL_TEMPERATURE
    _check_liquid(part, known, temperature)
    kind, opening = _sparger(_before(rig, part))
    iodide, substrate = (part.quantities.get(n) for n in ("potassium_iodide", "substrate"))
    return Bottle(
        name=part.name,
        place=part.place,
        liquid=known,
        temperature=temperature,
        temperature_stated=stated is not None,
        depth=part.quantities["depth"],
        volume=part.quantities["volume"],
        bore=part.quantities.get("bore"),
        sparger=kind,
        opening=opening,
        holds="iodide" if iodide else "substrate" if substrate else "nothing",
        reactant=iodide or substrate,
        rate_constant=part.quantities.get("rate_constant"),
        acid=part.value("sulfuric_acid") or 0.0,
        salt=part.value("salt") or 0.0,
    )


def _check_liquid(part: Part, known: Solvent, temperature: float) -> None:
    told = f"{number(temperature, Kind.TEMPERATURE, '°C'):.4g} °C"
    if temperature <= known.melting_point:
        melts = f"It melts at {number(known.melting_point, Kind.TEMPERATURE, '°C'):.4g} °C"
        kept = any(part.quantities.get(name) for name in ("sulfuric_acid", "salt"))
        raise OutOfBounds(
            f"{known.name} is frozen", where=f"{part.place}.bath", got=told,
            fix=f"{melts}; acid or salt may keep it liquid, but no figure of ozone in it is known "
            "there: take a warmer bath." if kept
            else f"{melts}: take a warmer bath or another solvent.",
        )  # fmt: skip
    if temperature >= known.boiling_point:
        raise OutOfBounds(
            f"{known.name} boils", where=f"{part.place}.bath", got=told,
            fix=f"It boils at {number(known.boiling_point, Kind.TEMPERATURE, '°C'):.4g} °C.",
        )  # fmt: skip


def _before(rig: Rig, part: Part) -> Part | None:
    """Return the sparger that leads into a bottle."""
    return next((one for one in rig.of_kind("sparger") if one.name in part.after), None)


def _sparger(part: Part | None) -> tuple[Sparger, Measured | None]:
    if part is None:
        return "unknown", None
    if pore := part.quantities.get("pore"):
        return "pore", pore
    if point := part.quantities.get("bubble_point"):
        return "stone", point
    if bore := part.quantities.get("bore"):
        return ("unknown", None) if part.words.get("form") in ("stone", "frit") else (
            "open tube", bore
        )  # fmt: skip
    return "unknown", None
