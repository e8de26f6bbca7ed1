"""From the burette to ozone: titrant, blanks, bottles."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from ozonewright.physics.assay.iodometry import (
    blank_at,
    iodide_ratio,
    ozone_from_thiosulfate,
    thiosulfate_from_salt,
    thiosulfate_from_standard,
    thiosulfate_used,
)
from ozonewright.questions.output.sheet import (
    ROOM_TEMPERATURE,
    Calculation,
    Sheet,
    Values,
    nothing,
)
from ozonewright.records.run import Bottle, Titrant, Titration
from ozonewright.references.constants import (
    M_K2CR2O7,
    M_KI,
    M_KIO3,
    M_NA2S2O3,
    M_NA2S2O3_5H2O,
    THIOSULFATE_PER_DICHROMATE,
    THIOSULFATE_PER_IODATE,
    WATER_EXPANSION,
)
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

STANDARD = {
    "potassium iodate": (M_KIO3, THIOSULFATE_PER_IODATE),
    "potassium dichromate": (M_K2CR2O7, THIOSULFATE_PER_DICHROMATE),
}
SALT = {
    "sodium thiosulfate pentahydrate": M_NA2S2O3_5H2O,
    "sodium thiosulfate anhydrous": M_NA2S2O3,
}


@dataclass(frozen=True, slots=True)
class FieldBlank:
    """What the bottles gave with the discharge off, over the same path and minutes."""

    label: str
    on_time: float
    thiosulfate: tuple[Measured, ...]
    """Per bottle."""


def titrate(
    sheet: Sheet,
    titration: Titration,
    on_time: Calculation | None,
    field_blanks: Sequence[FieldBlank],
) -> None:
    error = _burette_error(sheet, titration)
    strength = _titrant(sheet, titration.titrant, error)
    sheet.outputs["titrant"] = strength
    taken = _taken(sheet, titration)
    warmth = _warmth(sheet, titration)
    each: list[Calculation] = []
    for place, readings in enumerate(titration.titres):
        titre, end_point = sheet.mean(readings), _end_point(sheet, titration, place)
        blank = _reagent_blank(sheet, titration, place, error) if not field_blanks else nothing
        field = _field_blank(sheet, field_blanks, place, on_time)

        used = _used(strength, taken, warmth, titre, error, end_point, blank, field)
        sheet.outputs[f"thiosulfate_{place + 1}"] = used
        each.append(used)

    def together(v: Values) -> Any:
        return sum(one(v) for one in each)

    sheet.outputs["ozone"] = lambda v: ozone_from_thiosulfate(thiosulfate=together(v))
    if len(each) > 1 and sheet.clear_of_zero(together):
        sheet.outputs["guard_share"] = lambda v: each[-1](v) / together(v)


def _used(
    strength: Calculation,
    taken: Calculation,
    warmth: Calculation,
    titre: Calculation,
    error: Calculation,
    end_point: Calculation,
    blank: Calculation,
    field: Calculation,
) -> Calculation:
    """Thiosulfate of one bottle: readings bear the burette's error, the titre its end point."""
    return lambda v: (
        thiosulfate_used(
            concentration=strength(v),
            titre=titre(v) + error(v) + end_point(v),
            blank=blank(v),
            taken=taken(v),
            warmth=warmth(v),
        )
        - field(v)
    )


def _burette_error(sheet: Sheet, titration: Titration) -> Calculation:
    if titration.burette is None:
        sheet.unknowns.append("titration.burette")
        return nothing
    return sheet.take(titration.burette.tolerance) if titration.burette.tolerance else nothing


def _end_point(sheet: Sheet, titration: Titration, place: int) -> Calculation:
    if titration.end_point is None:
        return nothing
    u = titration.end_point.value
    name = f"end point, bottle {place + 1}"
    return sheet.take(Measured(0.0, u, name, Kind.VOLUME, basis="stated"))


def _reagent_blank(
    sheet: Sheet, titration: Titration, place: int, error: Calculation
) -> Calculation:
    if not titration.blanks:
        if "titration.blank" not in sheet.unknowns:
            sheet.unknowns.append("titration.blank")
        return nothing
    shared = len(titration.blanks) == 1
    blank = sheet.take(titration.blanks[0 if shared else place])
    return lambda v: blank(v) + error(v)


def _field_blank(
    sheet: Sheet, field_blanks: Sequence[FieldBlank], place: int, on_time: Calculation | None
) -> Calculation:
    if not field_blanks:
        return nothing
    first = sheet.take(field_blanks[0].thiosulfate[place])
    if len(field_blanks) == 1 or on_time is None:
        return first
    second = sheet.take(field_blanks[-1].thiosulfate[place])
    early, late = field_blanks[0].on_time, field_blanks[-1].on_time
    return lambda v: blank_at(
        on_time=on_time(v),
        early_time=early,
        early_blank=first(v),
        late_time=late,
        late_blank=second(v),
    )


def _taken(sheet: Sheet, titration: Titration) -> Calculation:
    if titration.aliquot is None or titration.made_up_to is None:
        return lambda v: 1.0
    aliquot, whole = sheet.take(titration.aliquot), sheet.take(titration.made_up_to)
    return lambda v: aliquot(v) / whole(v)


def _warmth(sheet: Sheet, titration: Titration) -> Calculation:
    """Expansion of the titrant from where it was standardised (20 °C unless said) to its use."""
    if titration.temperature is None:
        sheet.unknowns.append("titration.temperature")
        return nothing
    sheet.sources.append("eurachem_2012")
    warm = sheet.take(titration.temperature)
    start = titration.titrant.temperature
    reference = sheet.take(start) if start else lambda v: ROOM_TEMPERATURE
    return lambda v: WATER_EXPANSION * (warm(v) - reference(v))


def _titrant(sheet: Sheet, titrant: Titrant, error: Calculation) -> Calculation:
    if titrant.stated is not None:
        return sheet.take(titrant.stated)
    assert titrant.mass is not None
    assert titrant.flask is not None
    mass, flask = sheet.take(titrant.mass), sheet.take(titrant.flask)
    purity = _purity(sheet, titrant)
    if titrant.standard in SALT:
        molar_mass = SALT[titrant.standard]
        return lambda v: thiosulfate_from_salt(
            mass=mass(v), purity=purity(v), molar_mass=molar_mass, flask=flask(v)
        )
    assert titrant.aliquot is not None
    assert titrant.standard is not None
    sheet.sources.append("apha_1998")
    aliquot, titre = sheet.take(titrant.aliquot), sheet.mean(titrant.titres)
    blank = sheet.take(titrant.blank) if titrant.blank else None
    if blank is None:
        sheet.assumed.append("standard-blank-none")
    molar_mass, equivalents = STANDARD[titrant.standard]
    return lambda v: thiosulfate_from_standard(
        mass=mass(v),
        purity=purity(v),
        molar_mass=molar_mass,
        equivalents=equivalents,
        flask=flask(v),
        aliquot=aliquot(v),
        titre=titre(v) + error(v) - (blank(v) + error(v) if blank else 0.0),
    )


def _purity(sheet: Sheet, titrant: Titrant) -> Calculation:
    if titrant.purity is not None:
        return sheet.take(titrant.purity)
    sheet.unknowns.append("titration.titrant.purity")
    return lambda v: 1.0


def iodide_of_bottles(sheet: Sheet, bottles: Sequence[Bottle], count: int) -> None:
    if not bottles:
        sheet.unknowns.append("absorber.bottles")
        return
    for place, bottle in enumerate(bottles, start=1):
        iodide = _iodide(sheet, bottle)
        if iodide is None:
            sheet.unknowns.append(f"absorber.bottles[{place}].potassium_iodide")
            continue
        used = sheet.outputs[f"thiosulfate_{place}"]
        sheet.outputs[f"iodide_{place}"] = iodide
        if sheet.clear_of_zero(used):
            sheet.outputs[f"iodide_ratio_{place}"] = _ratio(iodide, used)


def _ratio(iodide: Calculation, used: Calculation) -> Calculation:
    return lambda v: iodide_ratio(
        iodide=iodide(v), ozone=ozone_from_thiosulfate(thiosulfate=used(v))
    )


def _iodide(sheet: Sheet, bottle: Bottle) -> Calculation | None:
    if bottle.iodide_mass is not None:
        mass = sheet.take(bottle.iodide_mass)
        return lambda v: mass(v) / M_KI
    if bottle.iodide_concentration is not None and bottle.volume is not None:
        strength, volume = sheet.take(bottle.iodide_concentration), sheet.take(bottle.volume)
        return lambda v: strength(v) * volume(v) / M_KI
    return None
