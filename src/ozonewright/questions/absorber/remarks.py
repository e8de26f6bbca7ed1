"""What is to be said beside the figures of an absorber."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.absorber.passing import Passed, as_array
from ozonewright.questions.absorber.result import Absorber, BottleRow
from ozonewright.questions.absorber.train import Bottle
from ozonewright.questions.absorber.what_if import ALIKE
from ozonewright.records.absorber import Asked
from ozonewright.records.rig import Rig
from ozonewright.references.ozone_solubility import solubility_band
from ozonewright.results import Note
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, size

MINUTE = size(Kind.TIME, "min")
SALTED = 0.6 * size(Kind.CONCENTRATION, "mol/L")
"""Ionic strength beyond which salting-out was not measured. [mol/m3]"""
FAST = 3.0
"""Hatta number above which the reaction happens in the film."""
LONG = 600.0 * MINUTE
"""A reactant that lasts longer is not told of. [s]"""
TINY = 0.1 * size(Kind.LENGTH, "mm")
"""Bubbles smaller than any law of rise here was tested on. [m]"""
COARSE = 0.05
"""Superficial velocity above which bubbles merge into slugs. [m/s]"""


def centre(value: Estimate | float | None) -> float:
    """Return the best estimate of a figure."""
    assert value is not None
    return value.value if isinstance(value, Estimate) else value


def unknowns(rig: Rig, bottles: tuple[Bottle, ...]) -> Iterator[str]:
    """Yield the places that were left empty and that the answer waits for."""
    if rig.ambient.pressure is None:
        yield "rig.ambient.pressure"
    for bottle in bottles:
        if not bottle.temperature_stated:
            yield f"{bottle.place}.bath"
        if bottle.sparger == "unknown":
            yield f"{bottle.place}.sparger"
        if bottle.bore is None:
            yield f"{bottle.place}.bore"
        if bottle.holds == "nothing":
            yield f"{bottle.place}.potassium_iodide or substrate"


def working(bottles: tuple[Bottle, ...], passed: list[Passed], found: Absorber) -> Iterator[Note]:
    """Yield the sum for a pocket calculator: of the first bottle, at the best estimates."""
    made, row = passed[0].column, found.bottles[0]
    units = centre(row.contact) * 6.0 / centre(row.bubble)

    def first(value: object) -> float:
        return float(as_array(value)[0])  # type: ignore[arg-type]

    yield Note(
        "absorber-gas",
        "advice",
        {
            "output": centre(found.output),
            "flow": centre(found.flow),
            "concentration": centre(found.concentration),
        },
    )
    yield Note(
        "absorber-bubbles",
        "advice",
        {
            "sparger": bottles[0].sparger,
            "bubble": centre(row.bubble),
            "rise": centre(row.rise),
            "contact": centre(row.contact),
            "area": units,
        },
    )
    yield Note(
        "absorber-films",
        "advice",
        {
            "kl": first(made.kl),
            "kg": first(made.kg),
            "partition": first(made.partition),
            "enhancement": centre(row.enhancement),
            "hatta": centre(row.hatta),
        },
    )
    yield Note(
        "absorber-passes",
        "advice",
        {"left": 1.0 - centre(row.efficiency), "correction": first(made.correction)},
    )


def notes(bottles: tuple[Bottle, ...], asked: Asked, found: Absorber) -> Iterator[Note]:
    """Yield what may have moved the answer, and what to do."""
    if found.correction is not None:
        yield Note(
            "absorber-corrected",
            "advice",
            {
                "by": found.measured_by,
                "modelled": centre(found.modelled),
                "found": centre(found.efficiency),
                "correction": centre(found.correction),
            },
        )
    else:
        yield Note("absorber-model-alone", "advice", {"guard": len(bottles) > 1})
    seen: set[str] = set()
    for bottle, row in zip(bottles, found.bottles, strict=True):
        yield from _of_liquid(bottle, row, seen)
        yield from _of_bubbles(bottle, asked, row)
    if found.breaks is not None and centre(found.breaks) < LONG:
        assert isinstance(found.breaks, Estimate)
        low, high = found.breaks.interval
        yield Note(
            "absorber-breaks",
            "advice",
            {"time": found.breaks.value, "low": low, "high": high, "more": len(bottles) > 1},
        )
    if not any(row.gain is not None and row.gain > ALIKE for row in found.what_if):
        yield Note("absorber-nothing-helps", "advice")
    if not asked.flow_stated:
        yield Note("absorber-flow-of-line", "advice", {"flow": centre(found.flow)})


def _of_liquid(bottle: Bottle, row: BottleRow, seen: set[str]) -> Iterator[Note]:
    new = bottle.liquid.name not in seen
    seen.add(bottle.liquid.name)
    if bottle.liquid.name != "water" and new:
        partition = row.partition
        assert isinstance(partition, Estimate)
        yield Note(
            "absorber-solubility-band",
            "doubt",
            {
                "liquid": bottle.liquid.name,
                "known": solubility_band(bottle.liquid.name).known,
                "low": partition.interval[0],
                "high": partition.interval[1],
            },
        )
    if bottle.salt > SALTED:
        yield Note("absorber-salty", "doubt", {"bottle": bottle.name})
    if bottle.liquid.reacts != "no" and new:
        yield Note("absorber-liquid-reacts", "doubt", {"liquid": bottle.liquid.name})
    if row.fills is not None:
        yield Note(
            "absorber-fills",
            "doubt",
            {"bottle": bottle.name, "time": centre(row.fills), "dissolved": centre(row.dissolved)},
        )
    if row.lasts is not None and centre(row.lasts) < LONG:
        yield Note(
            "absorber-lasts",
            "advice",
            {"bottle": bottle.name, "time": centre(row.lasts), "holds": bottle.holds,
             "fast": centre(row.hatta) > FAST},
        )  # fmt: skip


def _of_bubbles(bottle: Bottle, asked: Asked, row: BottleRow) -> Iterator[Note]:
    if bottle.sparger == "unknown" and asked.bubble is None:
        yield Note("absorber-bubble-unknown", "doubt", {"bottle": bottle.name})
    if bottle.sparger in ("stone", "pore") and bottle.holds == "iodide":
        yield Note("absorber-no-frit", "doubt", {"bottle": bottle.name})
    if centre(row.bubble) < TINY:
        yield Note("absorber-bubble-tiny", "doubt", {"bubble": centre(row.bubble)})
    if centre(row.hold_up) * centre(row.rise) > COARSE:
        yield Note("absorber-slugs", "doubt", {"bottle": bottle.name})
