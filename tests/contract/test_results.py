"""Each field of a result is declared once: its kind, its unit, its words, its JSON key."""

from __future__ import annotations

import dataclasses
import importlib
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from contract.tree import module_names
from ozonewright.results import ByName, Quantity, Result, Row, declared, fact, listing, quantity
from ozonewright.units import Kind, number, slug

CARRIED = {field.name for field in dataclasses.fields(Result)}
"""What every result has besides its own fields."""
CARRIED_KEYS = ("notes", "next", "unknowns", "sources", "method_names")


def classes() -> list[type[Row]]:
    """Return every declared class of the package."""
    for name in sorted(module_names()):
        if not name.endswith(".__main__"):
            importlib.import_module(name)
    found: list[type[Row]] = []
    waiting: list[type[Row]] = [Row]
    while waiting:
        for row in waiting.pop().__subclasses__():
            if row not in found and row.__module__.startswith("ozonewright.") and _still_there(row):
                found.append(row)
            waiting.append(row)
    return sorted(found, key=lambda row: (row.__module__, row.__qualname__))


def _still_there(row: type[Row]) -> bool:
    # dataclass(slots=True) leaves the class it was made from behind
    return getattr(sys.modules[row.__module__], row.__name__, row) is row


def keys(row: type[Row]) -> list[str]:
    """Return the JSON keys of a class, in order."""
    own = {name for name, _ in declared(row)}
    found = [key for key in CARRIED_KEYS if key not in own] if issubclass(row, Result) else []
    for name, declaration in declared(row):
        if not isinstance(declaration, Quantity):
            found.append(declaration.key if isinstance(declaration, ByName) else name)
            continue
        found.append(declaration.key)
        if not declaration.exact:
            found += [f"u_{declaration.key}", f"interval_{declaration.key}"]
    return found


def faults(row: type[Row]) -> Iterator[str]:
    """Yield what is wrong with the declarations of a class."""
    if not row.__dataclass_params__.frozen:  # type: ignore[attr-defined]
        yield "can be changed after it was computed"
    stated = dict(declared(row))
    own = {field.name for field in dataclasses.fields(row)}
    own -= CARRIED if issubclass(row, Result) else set()
    yield from (f"{name} is not declared" for name in sorted(own - set(stated)))
    yield from (f"{key} stands twice" for key, count in Counter(keys(row)).items() if count > 1)
    for name, declaration in stated.items():
        if not declaration.words.strip():
            yield f"{name} has no words"
        if isinstance(declaration, Quantity):
            yield from (f"{name} {fault}" for fault in _quantity_faults(declaration))


def _quantity_faults(declaration: Quantity) -> Iterator[str]:
    try:
        number(1.0, declaration.kind, declaration.unit)
    except KeyError:
        yield f"is shown in {declaration.unit!r}, which is no unit of {declaration.kind.value}"
    ending = declaration.worded or slug(declaration.unit)
    if not declaration.key.endswith(ending):
        yield f"has the key {declaration.key}, which does not end in {ending}"
    if ending and f"_{declaration.stem}".endswith(f"_{ending}"):
        yield f"has its unit twice in {declaration.key}"
    if not declaration.key.isidentifier() or declaration.key != declaration.key.lower():
        yield f"has the key {declaration.key}, which is no plain name"


def test_every_result_is_declared_once() -> None:
    found = [f"{row.__module__}.{row.__name__}: {f}" for row in classes() for f in faults(row)]
    assert found == []


@dataclass(frozen=True, kw_only=True)
class _Good(Result):
    ozone: float | None = quantity(Kind.MASS, "mg", "ozone", stem="ozone")
    ratio: float | None = quantity(Kind.DIMENSIONLESS, "", "ratio", stem="ratio", exact=True)
    label: str | None = fact("run")
    bottles: tuple[Row, ...] = listing("bottles")


@dataclass(frozen=True, kw_only=True)
class _Bad(Result):
    ozone: float | None = quantity(Kind.MASS, "mg", "ozone", stem="ozone")
    again: float | None = quantity(Kind.MASS, "mg", "ozone", stem="ozone", exact=True)
    u_ozone_mg: str = fact("clash with the uncertainty", "")
    notes_taken: str = ""
    loud: float | None = quantity(Kind.MASS, "g", "loud", stem="LOUD")
    twice: float | None = quantity(Kind.MASS, "g", "twice", stem="twice_g")
    volume: float | None = quantity(Kind.MASS, "mL", "volume", stem="volume")
    silent: float | None = quantity(Kind.MASS, "g", " ", stem="silent")


def test_a_good_class_passes() -> None:
    assert list(faults(_Good)) == []
    assert keys(_Good) == [
        *CARRIED_KEYS, "ozone_mg", "u_ozone_mg", "interval_ozone_mg", "ratio", "label", "bottles",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "fault",
    [
        "ozone_mg stands twice",
        "u_ozone_mg stands twice",
        "notes_taken is not declared",
        "no plain name",
        "unit twice in twice_g_g",
        "no unit of mass",
        "silent has no words",
    ],
)
def test_a_planted_fault_is_seen(fault: str) -> None:
    assert any(fault in found for found in faults(_Bad)), list(faults(_Bad))
