"""A quantity as a person typed it, and the field types built on it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from ozonewright.documents.section import Reader
from ozonewright.errors import OutOfBounds, UnitError
from ozonewright.references.glassware import tolerance
from ozonewright.uncertain import Measured
from ozonewright.units import Kind, number, read

Piece = Literal["burette", "pipette", "flask"]
_GRADE = re.compile(r"\s*,?\s*\b(?:(ASTM|ISO)\s+)?class\s+(\w+)\s*$", re.IGNORECASE)
_SQRT3, _SQRT6 = 3.0**0.5, 6.0**0.5


@dataclass(frozen=True, slots=True)
class Typed:
    """A quantity with the text it was read from; SI."""

    text: str
    value: float
    u: float
    shape: Literal["normal", "rectangular", "triangular"]
    basis: str
    """How u is known: stated, from digits, or a glassware class."""
    kind: Kind

    def measured(self, name: str) -> Measured:
        """Return the value as an input of a calculation, under the name of its origin."""
        return Measured(self.value, self.u, name, self.kind, shape=self.shape, basis=self.basis)


def typed(
    text: object,
    kinds: tuple[Kind, ...],
    piece: Piece | None = None,
    above: float | None = None,
    least: float | None = None,
    most: float | None = None,
) -> Typed:
    """Read one field; the document's model gives its kind, its piece of glassware, its bounds."""
    if not isinstance(text, str):
        read(text, *kinds)  # type: ignore[arg-type]  # raises: a bare value has no unit
        raise AssertionError
    grade = _GRADE.search(text)
    if grade and not piece:
        fix = f'Leave "{grade[0].strip(" ,")}" out, or state the uncertainty with ±.'
        raise UnitError("no class of glassware is read here", got=text, fix=fix)
    reading = read(text[: grade.start()] if grade else text, *kinds)
    _check_bounds(reading.value, reading.unit, reading.kind, text, above, least, most)
    if reading.u is not None:
        if grade:
            raise UnitError(
                "a class and ± are two statements of one uncertainty",
                got=text,
                fix='Leave one out: "250 mL class A".',
            )
        return Typed(text, reading.value, reading.u, "normal", "stated", reading.kind)
    if grade and piece:
        standard, letters = (grade[1] or "ISO").upper(), grade[2].upper()
        limit = tolerance(piece, reading.value, letters, standard=standard)
        basis = f"class {letters}"
        return Typed(text, reading.value, limit.value / _SQRT6, "triangular", basis, reading.kind)
    u = reading.digit / _SQRT3
    return Typed(text, reading.value, u, "rectangular", "from digits", reading.kind)


def _check_bounds(
    value: float,
    unit: str,
    kind: Kind,
    text: str,
    above: float | None,
    least: float | None,
    most: float | None,
) -> None:
    def told(limit: float) -> str:
        return f"{number(limit, kind, unit):.6g} {unit}".strip()

    if above is not None and value <= above:
        raise OutOfBounds(f"must be above {told(above)}", got=text, fix="Type the value read.")
    if least is not None and value < least:
        raise OutOfBounds(f"can't be below {told(least)}", got=text, fix="Type the value read.")
    if most is not None and value > most:
        raise OutOfBounds(f"can't be above {told(most)}", got=text, fix="Type the value read.")


def field(*kinds: Kind, **limits: Any) -> Reader:
    """Return the reader of a field of these kinds."""
    return Reader(lambda text: typed(text, kinds, **limits))


def one_or_more(*kinds: Kind, **limits: Any) -> Reader:
    """Return the reader of a field that takes one quantity or a list of repeats."""

    def each(value: object) -> tuple[Typed, ...]:
        items = value if isinstance(value, list) else [value]
        if not items:
            raise UnitError("an empty list", fix="Write one value, or leave the field out.")
        return tuple(typed(item, kinds, **limits) for item in items)

    return Reader(each)


Volume = Annotated[Typed, field(Kind.VOLUME, above=0.0)]
Titre = Annotated[Typed, field(Kind.VOLUME, least=0.0)]
Titres = Annotated[tuple[Typed, ...], one_or_more(Kind.VOLUME, least=0.0)]
Spread = Annotated[Typed, field(Kind.VOLUME, above=0.0)]
BuretteText = Annotated[Typed, field(Kind.VOLUME, piece="burette", above=0.0)]
Pipette = Annotated[Typed, field(Kind.VOLUME, piece="pipette", above=0.0)]
Flask = Annotated[Typed, field(Kind.VOLUME, piece="flask", above=0.0)]
Mass = Annotated[Typed, field(Kind.MASS, above=0.0)]
Duration = Annotated[Typed, field(Kind.TIME, above=0.0)]
Rest = Annotated[Typed, field(Kind.TIME, least=0.0)]
Temperature = Annotated[Typed, field(Kind.TEMPERATURE, above=0.0)]
Pressure = Annotated[Typed, field(Kind.PRESSURE, above=0.0)]
Flow = Annotated[Typed, field(Kind.VOLUME_FLOW, Kind.NORMAL_FLOW, above=0.0)]
Power = Annotated[Typed, field(Kind.POWER, above=0.0)]
Concentration = Annotated[Typed, field(Kind.CONCENTRATION, above=0.0)]
Purity = Annotated[Typed, field(Kind.SHARE, Kind.MASS_FRACTION, above=0.0, most=1.0)]
Salt = Annotated[Typed, field(Kind.MASS, Kind.MASS_CONCENTRATION, above=0.0)]
Collected = Annotated[Typed, field(Kind.MASS, Kind.AMOUNT, least=0.0)]
Rate = Annotated[Typed, field(Kind.MASS_RATE, Kind.AMOUNT_RATE, least=0.0)]
Claimed = Annotated[Typed, field(Kind.MASS_RATE, above=0.0)]
Length = Annotated[Typed, field(Kind.LENGTH, above=0.0)]
Depth = Annotated[Typed, field(Kind.LENGTH, least=0.0)]
Gauge = Annotated[Typed, field(Kind.PRESSURE_DIFFERENCE)]
Loss = Annotated[Typed, field(Kind.PRESSURE_DIFFERENCE, least=0.0)]
SMALLEST_LOSS = 0.01
"""Pa; no gauge of a bench tells less (common practice), and less vanishes beside the air's own."""
Above = Annotated[Typed, field(Kind.PRESSURE_DIFFERENCE, above=SMALLEST_LOSS)]
THINNEST_AIR = 30e3
"""Pa; the air on the highest mountain is thicker (from memory)."""
THICKEST_AIR = 120e3
"""Pa; so much is met in no room that people work in (common practice)."""
AirPressure = Annotated[Typed, field(Kind.PRESSURE, least=THINNEST_AIR, most=THICKEST_AIR)]
COLDEST_ROOM, WARMEST_ROOM = 223.15, 333.15
"""K; nobody works at a bench beyond (common practice), and the vapour of water is known within."""
DewPoint = Annotated[Typed, field(Kind.TEMPERATURE, above=0.0, most=WARMEST_ROOM)]
RoomTemperature = Annotated[Typed, field(Kind.TEMPERATURE, least=COLDEST_ROOM, most=WARMEST_ROOM)]
CylinderPressure = Annotated[Typed, field(Kind.CYLINDER_PRESSURE, above=0.0)]
RateConstant = Annotated[Typed, field(Kind.RATE_CONSTANT, above=0.0)]
Density = Annotated[Typed, field(Kind.MASS_CONCENTRATION, above=0.0)]
Part = Annotated[Typed, field(Kind.SHARE, least=0.0, most=1.0)]
"""A share of a whole, written in %."""
