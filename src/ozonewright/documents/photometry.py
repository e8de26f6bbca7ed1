"""Assays read on a photometer, in place of a titration."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from ozonewright.documents.section import Given, Section
from ozonewright.documents.typed import (
    Flask,
    Pipette,
    Pressure,
    Temperature,
    Typed,
    Volume,
    field,
    one_or_more,
)
from ozonewright.errors import AppError, Inconsistent, MissingValue, OutOfBounds
from ozonewright.units import Kind

SQRT3 = 3.0**0.5
HIGHEST = 3.0
"""One thousandth of the light is left; stray light is of that size (common practice, no source)."""

Absorbance = Annotated[Typed, field(Kind.DIMENSIONLESS)]
Absorbances = Annotated[tuple[Typed, ...], one_or_more(Kind.DIMENSIONLESS)]
Path = Annotated[Typed, field(Kind.LENGTH, above=0.0)]
Reference = Annotated[Typed, field(Kind.DIMENSIONLESS, above=0.0)]
Volumes = Annotated[tuple[Typed, ...], one_or_more(Kind.VOLUME, above=0.0)]
Salt = Annotated[Typed, field(Kind.MASS_CONCENTRATION, above=0.0)]


def _too_dark(name: str, readings: tuple[Typed, ...]) -> Iterator[AppError]:
    for reading in readings:
        if reading.value > HIGHEST:
            yield OutOfBounds(
                "no photometer reads so dark a cell: stray light rules above 3",
                where=name,
                got=reading.text,
                fix="Dilute, or take a shorter path, and read again.",
            )


def _too_coarse(path: Typed | None) -> Iterator[AppError]:
    """Yield a fault where the digits typed leave the path open down to nothing."""
    if path is not None and path.shape == "rectangular" and path.u * SQRT3 >= path.value:
        bare = path.text.split()[0]
        finer = f"{bare}00" if "." in bare or "," in bare else f"{bare}.00"
        yield OutOfBounds(
            "so few digits leave the path open down to nothing",
            where="path",
            got=path.text,
            fix=f'Write "{path.text.replace(bare, finer, 1)}" if it is a good cell, '
            "or state its ±.",
        )


class UltravioletSection(Section):
    absorbance: Absorbance
    path: Path
    temperature: Temperature
    pressure: Pressure
    cross_section: Literal["2019", "1961"] = "2019"

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if given["absorbance"] is not None:
            yield from _too_dark("absorbance", (given["absorbance"],))
        yield from _too_coarse(given["path"])


class TriiodideSection(Section):
    absorbances: tuple[Absorbances, ...]
    path: Path
    volume: Volumes
    blank: Absorbance | None = None
    aliquot: Pipette | None = None
    made_up_to: Flask | None = None
    potassium_iodide: Salt | None = None
    temperature: Temperature | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        for readings in given["absorbances"] or ():
            yield from _too_dark("absorbances", readings)
        if "absorbances" in given and given["absorbances"] == ():
            yield MissingValue(
                "no absorbance is given",
                where="absorbances",
                fix='Write absorbances = [ "0.412" ], one for each bottle.',
            )
        yield from _too_coarse(given["path"])
        counts = len(given["volume"] or ()), len(given["absorbances"] or ())
        if all(counts) and counts[0] not in (1, counts[1]):
            yield Inconsistent(
                f"{counts[0]} volumes for {counts[1]} bottles",
                where="volume",
                fix="Write one volume for all bottles, or one for each.",
            )
        if ("aliquot" in given) != ("made_up_to" in given):
            yield MissingValue(
                "a dilution needs what was taken and what it was made up to",
                where="aliquot" if "made_up_to" in given else "made_up_to",
                fix='Write aliquot = "5.00 mL" and made_up_to = "100 mL".',
            )
        aliquot, whole = given["aliquot"], given["made_up_to"]
        if aliquot and whole and aliquot.value > whole.value:
            yield Inconsistent(
                "the aliquot is larger than what it was made up to",
                where="aliquot",
                got=aliquot.text,
                fix="Exchange the two.",
            )


class IndigoSection(Section):
    blank: Reference
    absorbance: Absorbance
    path: Path
    sample: Volume
    made_up_to: Volume

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        blank, sample = given["blank"], given["sample"]
        if blank is not None:
            yield from _too_dark("blank", (blank,))
        yield from _too_coarse(given["path"])
        if sample and given["made_up_to"] and sample.value >= given["made_up_to"].value:
            yield Inconsistent(
                "the sample leaves no room for the reagent",
                where="sample",
                got=sample.text,
                fix='Write sample = "90 mL" and made_up_to = "100 mL".',
            )
