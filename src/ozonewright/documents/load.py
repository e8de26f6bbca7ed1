"""From a file or a table to validated documents, with every fault of it reported at once."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from ozonewright.documents.run import RunDocument
from ozonewright.errors import AppError, Faults, InputError, MissingValue, nearest

Model = TypeVar("Model", bound=BaseModel)
SECTIONS = tuple(name for name in RunDocument.model_fields if name != "run")
LARGEST_FILE = 5_000_000


def read_table(path: Path) -> dict[str, Any]:
    """Return the table written in a TOML file."""
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            raise InputError(
                "the file is far too large for a document",
                where=str(path),
                got=f"{size} bytes",
                fix="Give the file of one run or a few.",
            )
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise InputError(
            "the file is not text in UTF-8", where=str(path), fix="Save it as UTF-8."
        ) from error
    except OSError as error:
        raise InputError(
            "the file can't be read",
            where=str(path),
            got=error.strerror or "",
            fix="Check its name and folder.",
        ) from error
    try:
        return read_text(text)
    except InputError as error:
        raise error.at(str(path)) from error


def read_text(text: str) -> dict[str, Any]:
    """Return the table written in TOML text."""
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise InputError(
            "this is not TOML",
            got=str(error),
            fix='Lines read name = "value with unit"; tables start with [name].',
        ) from error


def runs_of(table: Mapping[str, Any]) -> tuple[tuple[str, RunDocument], ...]:
    """Return the run documents of a table, each with its place; all faults at once."""
    faults: list[AppError] = []
    documents: list[tuple[str, RunDocument]] = []
    for place, single, data in split_runs(table):
        try:
            documents.append((place, validated(RunDocument, data)))
        except Faults as found:
            faults += [_placed(fault, place, single) for fault in found]
    if faults:
        raise Faults(faults)
    return tuple(documents)


def split_runs(table: Mapping[str, Any]) -> Iterator[tuple[str, bool, dict[str, Any]]]:
    """Yield (place, alone, data) for each run; sections outside a run hold for every run."""
    runs = table.get("run")
    if runs is None:
        raise Faults(
            [
                MissingValue(
                    "no [run] is written here",
                    fix=(f"{nearest(next(iter(table)), ['run', *SECTIONS])} " if table else "")
                    + 'Begin with [run] and on_time = "240 s".',
                )
            ]
        )
    shared = {name: value for name, value in table.items() if name != "run"}
    if isinstance(runs, dict):
        yield "run", True, _with_sections(runs, shared)
        return
    if not isinstance(runs, list) or not runs or not all(isinstance(run, dict) for run in runs):
        raise Faults(
            [
                InputError(
                    "run must be a table",
                    got=str(runs)[:60],
                    fix="Write [run], or [[run]] for each of several.",
                )
            ]
        )
    for number, run in enumerate(runs, start=1):
        yield f"run[{number}]", False, _with_sections(run, shared)


def _with_sections(run: Mapping[str, Any], shared: Mapping[str, Any]) -> dict[str, Any]:
    """Return one document: [run.gas] beside or under the [gas] that all runs share."""
    own = {name: value for name, value in run.items() if name in SECTIONS}
    bare = {name: value for name, value in run.items() if name not in SECTIONS}
    return {"run": bare, **_merged(shared, own)}


def _merged(under: Mapping[str, Any], over: Mapping[str, Any]) -> dict[str, Any]:
    out = dict(under)
    for name, value in over.items():
        below = out.get(name)
        if isinstance(below, dict) and isinstance(value, dict):
            value = _merged(below, value)
        out[name] = value
    return out


def validated(model: type[Model], data: Mapping[str, Any]) -> Model:
    """Return the validated model of a table, or raise every fault of it together."""
    try:
        return model.model_validate(data)
    except ValidationError as error:
        raise Faults([_fault(model, dict(item)) for item in error.errors()]) from error


def _fault(model: type[BaseModel], item: dict[str, Any]) -> AppError:
    """Turn the model's own report of a fault into ours."""
    steps = [step for step in item["loc"] if step != "function-before"]
    place = _place(steps)
    own = item.get("ctx", {}).get("error")
    if isinstance(own, AppError):
        return own.at(place) if place else own
    got = "" if item["type"] == "missing" else str(item.get("input"))[:80]
    if item["type"] == "missing":
        return MissingValue("this is missing", where=place, fix="Write it with its unit.")
    if item["type"] == "extra_forbidden":
        known = _known(model, item["loc"])
        return InputError(
            "this word is not known here", where=place, fix=nearest(str(steps[-1]), known)
        )
    if item["type"] == "literal_error":
        return InputError(
            "this word is not one of the choices",
            where=place,
            got=got,
            fix=f"Write {item['ctx']['expected']}.",
        )
    return InputError(
        item["msg"], where=place, got=got, fix="See docs/documents.md for this field."
    )


def _place(steps: list[Any]) -> str:
    place = ""
    for step in steps:
        place += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if place else str(step)
    return place


def _known(model: type[BaseModel], location: tuple[Any, ...]) -> list[str]:
    """Return the words allowed in the table where an unknown one stands."""
    for step in location[:-1]:
        if isinstance(step, int) or step not in model.model_fields:
            continue
        model = _model_inside(model.model_fields[step].annotation) or model
    return list(model.model_fields)


def _model_inside(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for part in getattr(annotation, "__args__", ()):
        if found := _model_inside(part):
            return found
    return None


def _placed(fault: AppError, place: str, alone: bool) -> AppError:
    """Name the place as the file has it: ``gas.flow`` alone, ``run[2].gas.flow`` among several."""
    if alone:
        return fault
    inside = fault.where.removeprefix("run.").removeprefix("run")
    return type(fault)(
        fault.what, where=f"{place}.{inside}" if inside else place, got=fault.got, fix=fault.fix
    )
