"""Which doubts the runs of two settings share, so that they cancel in the ratio."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass
from math import copysign

from ozonewright.questions.comparison.result import Arm, Made
from ozonewright.records.run import Run
from ozonewright.uncertain import Estimate

FIELD_BLANK = "field blank"
BLANK = "blank"
GAS = ("flow", "feed", "air", "gas ", "dew point", "rotameter")
"""How the names of the readings of the gas begin."""


@dataclass(frozen=True, slots=True)
class Part:
    """What one reading brings to one output, relative to it, with its sign."""

    name: str
    identity: Hashable
    """Equal for readings that are one and the same."""
    size: float
    own: bool = False
    """Of this run alone; the scatter of the runs holds it."""


def parts(arm: Arm, made: Made, estimate: Estimate) -> Iterator[Part]:
    """Yield the parts of the relative uncertainty of an estimate of one run."""
    things = things_of(made.run)
    for share in estimate.budget:
        size = estimate.u / estimate.value * (abs(share.share_percent) / 100.0) ** 0.5
        identity = _identity(share.input, things, arm, made)
        yield Part(
            share.input,
            identity or (share.input, arm.name, made.run.place, made.run.label),
            copysign(size, share.sensitivity),
            own=identity is None,
        )


def _identity(
    name: str, things: dict[str, Hashable], arm: Arm, made: Made
) -> tuple[Hashable, ...] | None:
    """Return what other runs may share of a reading, or None for one of this run alone."""
    for thing, what in things.items():
        if name.startswith(thing):
            return (name, what)
    if name.startswith(FIELD_BLANK):
        return (name, arm.name)
    if name.startswith(BLANK) and made.run.titration:
        # One jar of iodide serves the runs of a setting; another setting may have another jar.
        return (name, arm.name, made.run.titration.blanks)
    if name.startswith(GAS):
        # A meter is off alike wherever it reads the same, and perhaps otherwise at another flow.
        return (name, made.run.gas.meter, made.run.gas.flow)
    return None


def things_of(run: Run) -> dict[str, Hashable]:
    """Return what outlives a run and serves others: titrant, its standard, glassware."""
    if run.titration is None:
        return {}
    titrant, burette = run.titration.titrant, run.titration.burette
    things: dict[str, Hashable] = {}
    if burette is not None and burette.tolerance is not None:
        things[burette.tolerance.name] = burette.tolerance
    glass = (run.titration.aliquot, run.titration.made_up_to)
    weighed = (titrant.stated, titrant.mass, titrant.purity, titrant.flask, titrant.aliquot)
    # Glassware whose class is stated is named by the piece; a volume by its use is this run's own.
    pieces = [one for one in glass if one is not None and one.basis.startswith("class")]
    for one in (*weighed, titrant.blank, titrant.temperature, *pieces):
        if one is not None:
            things[one.name] = one
    if titrant.titres:
        things[titrant.titres[0].name.partition(", reading")[0]] = titrant.titres
    return things


def combined(parts: Iterable[Part]) -> list[Part]:
    """Return the parts with those of one reading added up."""
    found: dict[Hashable, Part] = {}
    for part in parts:
        before = found[part.identity].size if part.identity in found else 0.0
        found[part.identity] = Part(part.name, part.identity, before + part.size, part.own)
    return list(found.values())
