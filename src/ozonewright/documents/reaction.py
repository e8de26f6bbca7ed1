"""The reaction document: what is ozonised, in what, with how much ozone, and what ends it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Annotated, Literal

from ozonewright.documents.run import GasSection
from ozonewright.documents.section import Given, Reader, Section, as_written, validated
from ozonewright.documents.typed import (
    Concentration,
    Duration,
    Mass,
    Pressure,
    Purity,
    Rest,
    Salt,
    Temperature,
    Titre,
    Typed,
    Volume,
    field,
    typed,
)
from ozonewright.errors import (
    AppError,
    Faults,
    Inconsistent,
    InputError,
    MissingValue,
    OutOfBounds,
    UnknownSubstance,
)
from ozonewright.references.constants import O3_BOILING_POINT
from ozonewright.references.reagents import reagent
from ozonewright.references.solvents import solvent
from ozonewright.units import Kind, number

Amount = Annotated[Typed, field(Kind.AMOUNT, above=0.0)]
Output = Annotated[Typed, field(Kind.MASS_RATE, Kind.AMOUNT_RATE, above=0.0)]
Uptake = Annotated[Typed, field(Kind.SHARE, above=0.0, most=1.0)]
Heat = Annotated[Typed, field(Kind.MOLAR_ENERGY, above=0.0)]
_MIXED = re.compile(r"([A-Za-z0-9][\w -]*?)\s+([\d.,]+\s*%)")
"""A part of a mixture in one text: ``dichloromethane 80 %, methanol 20 %``."""
WHOLE = 0.005
"""How far the parts of a solvent may be from adding up to one."""


def _smiles(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise MissingValue(
            "no structure is written", got=as_written(value), fix='Write smiles = "C=CCCCC".'
        )
    return value.strip()


def _solvent(value: object) -> dict[str, float]:
    if isinstance(value, str):
        named = _MIXED.findall(value)
        if not named or _MIXED.sub("", value).strip(" ,;+"):
            return {_solvent_name(value): 1.0}
        value = dict(named)
    if not isinstance(value, Mapping) or not value:
        raise InputError(
            "a solvent is a name, or a table of the parts of a mixture",
            got=as_written(value),
            fix='Write "methanol", or "dichloromethane 80 %, methanol 20 %".',
        )
    parts: dict[str, float] = {}
    for name, text in value.items():
        try:
            share = typed(text, (Kind.SHARE,), above=0.0, most=1.0).value
        except InputError as error:
            raise error.at(str(name)) from error
        known = _solvent_name(str(name))
        parts[known] = parts.get(known, 0.0) + share
    if abs(sum(parts.values()) - 1.0) > WHOLE:
        raise Inconsistent(
            f"the parts of the solvent add up to {100 * sum(parts.values()):.4g} %",
            got=as_written(value),
            fix="Give the volume of each before mixing; they add up to 100 %.",
        )
    return parts


def _solvent_name(text: str) -> str:
    try:
        return solvent(text).name
    except UnknownSubstance as error:
        fix = f"{error.fix} A mixture: dichloromethane 80 %, methanol 20 %."
        raise InputError("this solvent is not known", got=text, fix=fix) from error


def _reagent(value: object) -> str:
    try:
        return reagent(str(value)).name
    except UnknownSubstance as error:
        raise InputError(
            "this quench is not known", got=as_written(value), fix=error.fix
        ) from error


def _above_zero(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0.0 < value <= 100.0:
        raise OutOfBounds(
            "equivalents are a plain number above 0 and up to 100",
            got=as_written(value),
            fix="Write equivalents = 1.10.",
        )
    return float(value)


def one_or_several(model: type[Section], example: str) -> Callable[[object], object]:
    """Return the reader of a field that takes one table or a list of them."""

    def read(value: object) -> tuple[Section, ...]:
        alone = isinstance(value, Mapping)
        items = [value] if alone else value
        if not isinstance(items, list | tuple) or not items:
            raise InputError("a table is wanted", got=as_written(value), fix=example)
        found: list[Section] = []
        faults: list[AppError] = []
        for number_, item in enumerate(items, start=1):
            place = "" if alone else f"[{number_}]"
            if not isinstance(item, Mapping):
                error = InputError("a table is wanted", got=as_written(item), fix=example)
                faults.append(error.at(place) if place else error)
                continue
            try:
                found.append(validated(model, item))
            except Faults as several:
                faults += [fault.at(place) if place else fault for fault in several]
        if faults:
            raise Faults(faults)
        return tuple(found)

    return read


class QuenchSection(Section):
    reagent: Annotated[str, Reader(_reagent)]
    equivalents: Annotated[float, Reader(_above_zero)]


class SubstrateSection(Section):
    smiles: Annotated[str, Reader(_smiles)]
    name: str | None = None
    amount: Amount | None = None
    mass: Mass | None = None
    purity: Purity | None = None
    boiling_point: Temperature | None = None
    vapour_pressure: Pressure | None = None
    product_boiling_point: Temperature | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if "amount" not in given and "mass" not in given:
            yield MissingValue(
                "how much of it?",
                where="amount",
                fix='Write amount = "10.0 mmol", or mass = "1.64 g" and purity = "98 wt%".',
            )
        if "amount" in given and "mass" in given:
            yield Inconsistent(
                "the amount is stated twice",
                where="mass",
                fix="Give the amount, or the mass, not both.",
            )
        if "boiling_point" in given and "vapour_pressure" in given:
            yield Inconsistent(
                "boiling point and vapour pressure both say how readily it leaves",
                where="vapour_pressure",
                fix="Give one of them: the vapour pressure in the cold bath is better.",
            )
        if "purity" in given and "amount" in given:
            yield Inconsistent(
                "a purity goes with a mass",
                where="purity",
                fix="Give the mass weighed, or leave the purity out: the amount is of pure "
                "substrate.",
            )


class SlipSection(Section):
    run: str | None = None
    titre: Titre | None = None
    titrant: Concentration | None = None
    blank: Titre | None = None
    on_time: Duration | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if "run" in given:
            if any(name in given for name in ("titre", "titrant", "blank", "on_time")):
                yield Inconsistent(
                    "the slip is stated twice",
                    where="run",
                    fix="Name the run whose guard bottle tells it, or give the tail titre.",
                )
            return
        for name in ("titre", "titrant", "on_time"):
            if name not in given:
                yield MissingValue(
                    "a slip by the tail bottle needs its titre, titrant and on-time",
                    where=name,
                    fix='Write slip = { titre = "3.1 mL", titrant = "0.0510 mol/L", on_time = '
                    '"10 min" }, or slip = { run = "C4" }.',
                )
        titre, blank = given["titre"], given["blank"]
        if titre and blank and blank.value > titre.value:
            yield Inconsistent(
                "the blank is above the titre", where="blank", got=blank.text,
                fix="Exchange the two.",
            )  # fmt: skip


class TailSection(Section):
    volume: Volume | None = None
    potassium_iodide: Salt | None = None


class TimerSection(Section):
    on: Duration
    off: Rest


class ReactionSection(Section):
    label: str | None = None
    by: str | None = None
    remark: str | None = None
    rig: str | None = None
    room: str | None = None
    solvent: Annotated[dict[str, float] | None, Reader(_solvent)] = None
    volume: Volume | None = None
    temperature: Temperature | None = None
    work_up: Literal["reductive", "borohydride", "oxidative"] | None = None
    quench: Annotated[
        tuple[QuenchSection, ...],
        Reader(
            one_or_several(
                QuenchSection,
                'Write quench = { reagent = "triphenylphosphine", equivalents = 1.10 }.',
            )
        ),
    ] = ()
    cleave: Literal["first", "selective", "full"] | None = None
    equivalents: Annotated[float | None, Reader(_above_zero)] = None
    output: Output | None = None
    setting: str | None = None
    run: str | None = None
    uptake: Uptake | None = None
    slip: SlipSection | None = None
    start_loss: Rest | None = None
    timer: TimerSection | None = None
    end_point: Literal["blue", "dye", "off-gas", "tail titre"] | None = None
    heat: Heat | None = None
    tail: TailSection = TailSection()

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        named = [name for name in ("output", "setting", "run") if name in given]
        if len(named) > 1:
            yield Inconsistent(
                "the output is stated twice",
                where=named[1],
                fix="Give the output, or the setting or run that it comes from.",
            )
        if "uptake" in given and "slip" in given:
            yield Inconsistent(
                "uptake and slip say the same thing", where="slip", fix="Leave one out."
            )
        if "equivalents" in given and "cleave" in given:
            yield Inconsistent(
                "equivalents and cleave both say how much ozone is wanted",
                where="cleave",
                fix="Leave one out.",
            )
        yield from _other_work_up(given)
        yield from _too_cold(given)


def _other_work_up(given: Given) -> Iterator[AppError]:
    work_up = given["work_up"]
    for quench in given["quench"] or ():
        known = reagent(quench.reagent)
        if work_up and work_up not in known.work_ups:
            yield Inconsistent(
                f"{known.name} belongs to another work-up",
                where="quench",
                got=f"{work_up} with {known.name}",
                fix=f'Write work_up = "{known.work_ups[0]}", or take another quench.',
            )


def _too_cold(given: Given) -> Iterator[AppError]:
    temperature, parts = given["temperature"], given["solvent"]
    if temperature is None:
        return
    boiling = number(O3_BOILING_POINT, Kind.TEMPERATURE, "°C")
    if temperature.value <= O3_BOILING_POINT:
        yield OutOfBounds(
            f"ozone turns liquid here: it boils at {boiling:.0f} °C, and liquid ozone explodes",
            where="temperature",
            got=temperature.text,
            fix="Cool with dry ice, −78 °C at the lowest; never with liquid nitrogen.",
        )
        return
    for name in parts or ():
        melting = solvent(name).melting_point
        if len(parts) == 1 and temperature.value < melting:
            yield Inconsistent(
                f"{name} freezes at {number(melting, Kind.TEMPERATURE, '°C'):.0f} °C",
                where="temperature",
                got=temperature.text,
                fix="Work warmer, or in a solvent that stays liquid.",
            )
        if temperature.value > solvent(name).boiling_point:
            boils = number(solvent(name).boiling_point, Kind.TEMPERATURE, "°C")
            yield Inconsistent(
                f"{name} boils at {boils:.0f} °C",
                where="temperature",
                got=temperature.text,
                fix="Work colder.",
            )


class ReactionDocument(Section):
    """One reaction with its substrates and its gas."""

    reaction: ReactionSection
    substrate: Annotated[
        tuple[SubstrateSection, ...],
        Reader(
            one_or_several(
                SubstrateSection,
                'Write [[substrate]] with smiles = "C=CCCCC" and amount = "10.0 mmol".',
            )
        ),
    ]
    gas: GasSection = GasSection()
