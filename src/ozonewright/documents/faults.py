"""A model's own report of a fault, turned into words a person can act on."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from ozonewright.errors import AppError, InputError, MissingValue, nearest

LONGEST = 80
"""Letters of what was given that a message repeats."""
WANTED = {
    "string_type": ("text is wanted", 'Write it in quotes: {name} = "…".'),
    "bool_type": ("true or false is wanted", "Write {name} = true, without quotes."),
    "tuple_type": ("a list is wanted", "Write {name} = [ … ], one for each bottle."),
    "list_type": ("a list is wanted", "Write {name} = [ … ]."),
    "dict_type": ("a table is wanted", "Write [{place}] with its fields below."),
    "model_type": ("a table is wanted", "Write [{place}] with its fields below."),
    "model_attributes_type": ("a table is wanted", "Write [{place}] with its fields below."),
}
"""What each report of the model means, and the mend."""


def fault_of(model: type[BaseModel], item: dict[str, Any]) -> AppError:
    """Return the fault that the model reports as `item`, placed in the document."""
    steps = [step for step in item["loc"] if not str(step).startswith("function-")]
    place = place_of(steps)
    own = item.get("ctx", {}).get("error")
    if isinstance(own, AppError):
        return own.at(place) if place else own
    got, kind = as_written(item.get("input")), item["type"]
    if kind == "missing":
        return MissingValue(
            "this is missing", where=place, fix=f"Write {steps[-1]} = … as it was read."
        )
    if kind == "extra_forbidden":
        known = _known(model, item["loc"])
        fix = nearest(str(steps[-1]), known)
        return InputError("this word is not known here", where=place, fix=fix)
    if kind == "literal_error":
        choices = item["ctx"]["expected"].replace("'", '"')
        what = "this word is not one of the choices"
        return InputError(what, where=place, got=got, fix=f"Write {choices}.")
    what, fix = WANTED.get(kind, (str(item["msg"]), "See docs/documents.md for this field."))
    table = place_of([step for step in steps if not isinstance(step, int)])
    fix = fix.format(name=table.rpartition(".")[2], place=table)
    return InputError(what, where=place, got=got, fix=fix)


def as_written(value: object) -> str:
    """Return a value about as TOML writes it, cut to what a message can hold."""
    if isinstance(value, bool):
        return str(value).lower()
    text = str(value)
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"


def place_of(steps: list[Any]) -> str:
    """Return a place in a document: ``absorber.bottles[2].volume``, lists counted from 1."""
    place = ""
    for step in steps:
        place += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if place else str(step)
    return place


def _known(model: type[BaseModel], location: tuple[Any, ...]) -> list[str]:
    """Return the words allowed in the table where an unknown one stands."""
    for step in location[:-1]:
        if not isinstance(step, int) and step in model.model_fields:
            model = _model_inside(model.model_fields[step].annotation) or model
    return list(model.model_fields)


def _model_inside(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for part in getattr(annotation, "__args__", ()):
        if found := _model_inside(part):
            return found
    return None
