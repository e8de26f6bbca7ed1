"""How to set up the next titration."""

from __future__ import annotations

from collections.abc import Mapping

from ozonewright.bench.ozone_rate import ozone_rate
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, MissingValue
from ozonewright.questions.recipe import Recipe, Wish, recipe
from ozonewright.references.acids import acid
from ozonewright.units import Kind

FIELDS: dict[str, tuple[Kind, ...]] = {
    "output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "titrant": (Kind.CONCENTRATION,),
    "burette": (Kind.VOLUME,),
    "volume": (Kind.VOLUME,),
    "iodide": (Kind.MASS,),
    "flow": (Kind.VOLUME_FLOW,),
    "acid_strength": (Kind.CONCENTRATION,),
    "on_time": (Kind.TIME,),
}
"""What may be wished for or be on hand, and what kind of quantity it is."""
NEEDED = ("output", "titrant", "burette")


def plan(texts: Mapping[str, str | None]) -> Recipe:
    """Return the recipe for quantities typed as text, all faults at once."""
    read, faults = _read(texts)
    for name in NEEDED:
        if not texts.get(name):
            faults.append(
                MissingValue("this is needed", where=name, fix=f'Write it as "{EXAMPLES[name]}".')
            )
    kind = texts.get("acid") or "sulfuric acid"
    try:
        acid(kind)
    except AppError as error:
        faults.append(error.at("acid"))
    if faults:
        raise Faults(faults)
    return recipe(
        Wish(
            rate=ozone_rate(read["output"], "expected output"),
            titrant=read["titrant"].value,
            burette=read["burette"].value,
            volume=_value(read, "volume"),
            iodide=_value(read, "iodide"),
            flow=_value(read, "flow"),
            acid=kind,
            acid_strength=_value(read, "acid_strength"),
            on_time=_value(read, "on_time"),
        )
    )


EXAMPLES = {"output": "0.6 g/h", "titrant": "0.05 mol/L", "burette": "50 mL"}


def _read(texts: Mapping[str, str | None]) -> tuple[dict[str, Typed], list[AppError]]:
    read: dict[str, Typed] = {}
    faults: list[AppError] = []
    for name, kinds in FIELDS.items():
        text = texts.get(name)
        if not text:
            continue
        try:
            if name == "burette":
                read[name] = typed(text, kinds, piece="burette", above=0.0)
            else:
                read[name] = typed(text, kinds, above=0.0)
        except AppError as error:
            faults.append(error.at(name))
    return read, faults


def _value(read: Mapping[str, Typed], name: str) -> float | None:
    return read[name].value if name in read else None
