"""Published and hand-made check cases, shipped so that anyone can run them.

A case says what goes in (as printed, with units), what must come out, how far off it may be and
why, and who says so. It never holds a figure that this program made.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from ozonewright.errors import DataError
from ozonewright.references.sources import source
from ozonewright.references.tables import EVIDENCE, FOLDER

KINDS = {"P": "printed in the source", "D": "derived from the source", "L": "value of a library"}
_NEEDED = (
    "id", "subject", "inputs", "expected", "tolerance", "why", "source", "locator", "evidence",
    "kind",
)  # fmt: skip
_NUMBER = re.compile(r"([+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?)(?:\s+(.+))?")


@dataclass(frozen=True, slots=True)
class Check:
    """One expected figure, in the unit it is printed in."""

    name: str
    value: float
    unit: str
    tolerance: float
    """Greatest permitted difference, in the same unit."""
    tolerance_text: str

    def agrees(self, got: float) -> bool:
        """Whether `got`, in this check's unit, is within the tolerance (a NaN is not)."""
        return abs(got - self.value) <= self.tolerance


@dataclass(frozen=True, slots=True)
class Case:
    """One calculation whose result others have stated."""

    id: str
    subject: str
    """The name of the calculation, such as ``iodometry.ozone_from_titres``."""
    inputs: Mapping[str, Any]
    checks: tuple[Check, ...]
    why: str
    """The reason of the tolerance."""
    source: str
    locator: str
    evidence: str
    kind: str
    note: str = ""


@cache
def cases() -> tuple[Case, ...]:
    """Return every shipped case, in the order of the files and within them."""
    found = [
        case for path in sorted((FOLDER / "cases").glob("*.toml")) for case in read_cases(path)
    ]
    twice = {case.id for case in found if sum(other.id == case.id for other in found) > 1}
    if twice:
        raise DataError("two cases share an id", got=", ".join(sorted(twice)),
                        fix="Give each case its own id.")  # fmt: skip
    return tuple(found)


def read_cases(path: Path) -> tuple[Case, ...]:
    """Return the cases of one file.

    Raises
    ------
    DataError
        A case lacks its locator, source or reason, or can't be read.
    """
    entries = tomllib.loads(path.read_text(encoding="utf-8")).get("case", [])
    return tuple(_case(entry, f"{path.name} case {entry.get('id', n)}")
                 for n, entry in enumerate(entries, 1))  # fmt: skip


def _case(entry: dict[str, Any], where: str) -> Case:
    for key in _NEEDED:
        if not entry.get(key) or (isinstance(entry[key], str) and not entry[key].strip()):
            raise DataError(f"a case without {key} proves nothing", where=where, fix=f"Add {key}.")
    if strange := set(entry) - {*_NEEDED, "note"}:
        raise DataError("unknown entries", where=where, got=", ".join(sorted(strange)),
                        fix="Leave them out or mend the spelling.")  # fmt: skip
    source(entry["source"])
    _one_of(entry["evidence"], EVIDENCE, "evidence", where)
    _one_of(entry["kind"], KINDS, "kind", where)
    return Case(
        id=entry["id"],
        subject=entry["subject"],
        inputs=MappingProxyType(entry["inputs"]),
        checks=_checks(entry["expected"], entry["tolerance"], where),
        why=entry["why"],
        source=entry["source"],
        locator=entry["locator"],
        evidence=entry["evidence"],
        kind=entry["kind"],
        note=entry.get("note", ""),
    )


def _one_of(given: str, known: Mapping[str, str] | tuple[str, ...], what: str, where: str) -> None:
    if given not in known:
        raise DataError(f"unknown {what}", where=where, got=given,
                        fix=f"Write one of {', '.join(known)}.")  # fmt: skip


def _checks(
    expected: dict[str, str], tolerance: str | dict[str, str], where: str
) -> tuple[Check, ...]:
    allowed = dict.fromkeys(expected, tolerance) if isinstance(tolerance, str) else tolerance
    if set(allowed) != set(expected):
        raise DataError("expected and tolerance name different figures", where=where,
                        got=", ".join(sorted(set(allowed) ^ set(expected))),
                        fix="Give one tolerance for all, or one for each.")  # fmt: skip
    return tuple(_check(name, expected[name], allowed[name], where) for name in expected)


def _check(name: str, expected: str, tolerance: str, where: str) -> Check:
    value, unit = _quantity(expected, where)
    width, basis = _quantity(tolerance, where)
    if basis == "relative":
        width *= abs(value)
    elif basis != unit:
        raise DataError(f"the tolerance of {name} is not in its unit", where=where, got=tolerance,
                        fix=f"Write it in {unit or 'plain numbers'}, or as relative.")  # fmt: skip
    if not width > 0.0:
        raise DataError(f"the tolerance of {name} is not above zero", where=where, got=tolerance,
                        fix='Write for example "1e-9 relative".')  # fmt: skip
    return Check(name, value, unit, width, tolerance)


def _quantity(text: str, where: str) -> tuple[float, str]:
    match = _NUMBER.fullmatch(text) if isinstance(text, str) else None
    if match is None:
        raise DataError("no number with a unit", where=where, got=str(text),
                        fix='Write text such as "24.00 mg" or "1e-4 relative".')  # fmt: skip
    return float(match[1]), match[2] or ""
