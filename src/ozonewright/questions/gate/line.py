"""What the gas passes: where it ends, whether liquid can come back, what the parts are made of."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.gate.asked import PRACTICE
from ozonewright.questions.gate.facts import SUPPLIERS, Facts
from ozonewright.questions.gate.result import Check
from ozonewright.records.rig import Part
from ozonewright.results import Note
from ozonewright.units import Kind

ROOMY = 1.0
"""Volume of the safety bottle over the liquid that could come back, at the least."""


def line(facts: Facts) -> Iterator[Check]:
    """Yield the checks of the gas line."""
    yield _off_gas(facts)
    yield _suck_back(facts)
    yield from _destruct(facts)
    yield from _drying(facts)


def amount(kind: Kind, unit: str, value: float, figures: int = 2) -> Note:
    """Return a figure of a check."""
    return Note(
        "gate-figure", values={"kind": kind, "unit": unit, "value": value, "figures": figures}
    )


def _off_gas(facts: Facts) -> Check:
    wet, end = facts.tail_behind, facts.end_behind
    safe = facts.off_gas_kept
    breathed = facts.breathed
    values = {
        "flask": bool(facts.flasks),
        "tail": wet,
        "end": end,
        "hose_off": breathed.hose_off if breathed else None,
        "lost": breathed.lost if breathed else None,
        "steady": breathed.steady if breathed else None,
        "limit": breathed.limit if breathed else None,
    }
    return Check(
        code="off-gas",
        verdict="go" if safe else "stop",
        value=amount(Kind.TIME, "s", breathed.hose_off)
        if breathed and breathed.hose_off is not None
        else None,
        limit=amount(Kind.MOLE_FRACTION, "ppm", breathed.limit) if breathed else None,
        text=Note("gate-off-gas", values=values),
        mend=None if safe else Note("gate-off-gas-mend", values=values),
        source=PRACTICE,
    )


def _suck_back(facts: Facts) -> Check:
    liquid_parts = facts.rig.of_kind("bottle", "tail bottle")
    first = facts.flasks or liquid_parts
    before = facts.before(*first)
    valve = any(
        part.kind == "check valve" and part.words.get("direction") == "forward" for part in before
    )
    bottles = [part for part in before if part.kind == "safety bottle"]
    rooms = [part.value("volume") for part in bottles]
    room = None if None in rooms or not rooms else sum(one for one in rooms if one is not None)
    liquids = [part.value("volume") for part in first]
    liquid = None if None in liquids or not liquids else max(one for one in liquids if one)
    known = room is not None and liquid is not None
    holds = known and room is not None and liquid is not None and room >= ROOMY * liquid
    safe = valve and bool(bottles) and holds
    values = {"valve": valve, "bottle": bool(bottles), "room": room, "liquid": liquid}
    return Check(
        code="suck-back",
        verdict="go" if safe else "stop",
        value=None if room is None else amount(Kind.VOLUME, "mL", room, 3),
        limit=None if liquid is None else amount(Kind.VOLUME, "mL", liquid, 3),
        text=Note("gate-suck-back", values=values),
        mend=None if safe else Note("gate-suck-back-mend", values=values),
        source=PRACTICE,
        unknown=(
            *(
                f"{part.name}: direction"
                for part in before
                if part.kind == "check valve" and "direction" not in part.words
            ),
            *(
                f"{part.name}: volume"
                for part in (*bottles, *first)
                if part.value("volume") is None
            ),
        ),
    )


CARBON = ("carbon", "charcoal")


def _destruct(facts: Facts) -> Iterator[Check]:
    for bed in facts.rig.of_kind("destruct"):
        content = bed.words.get("content")
        burns = content is None or any(word in content.casefold() for word in CARBON)
        fed = facts.oxygen or facts.reaction is not None
        if burns and fed:
            yield Check(
                code="carbon-destruct",
                verdict="stop",
                text=Note("gate-carbon", values={"content": content, "oxygen": facts.oxygen}),
                mend=Note("gate-carbon-mend"),
                source=PRACTICE,
                unknown=(f"{bed.name}: content",) if content is None else (),
            )
        else:
            yield Check(
                code="carbon-destruct",
                verdict="go",
                text=Note("gate-carbon-none", values={"content": content}),
                source=PRACTICE,
            )
        yield _dry_bed(facts, bed)


def _dry_bed(facts: Facts, bed: Part) -> Check:
    """A catalyst wants dry gas without solvent: a wet trap, then a drying bottle, then the bed."""
    trap = any(part.kind == "tail bottle" for part in facts.before(bed))
    dry = bed.wet is False
    safe = dry and trap
    return Check(
        code="dry-bed",
        verdict="go" if safe else "stop",
        text=Note("gate-dry-bed", values={"dry": dry, "trap": trap}),
        mend=None if safe else Note("gate-dry-bed-mend"),
        source=PRACTICE,
        unknown=(f"{bed.name}: wet",) if bed.wet is None else (),
    )


def _drying(facts: Facts) -> Iterator[Check]:
    """Air must be dry before the discharge."""
    pumps = [one for one in facts.rig.of_kind(*SUPPLIERS) if one.kind == "pump"]
    if not pumps:
        return
    dried = all(
        any(part.kind == "desiccant column" for part in facts.behind(pump))
        or (pump.gas is not None and (pump.gas.name == "dry air" or pump.gas.dew_point is not None))
        for pump in pumps
    )
    yield Check(
        code="dried-air",
        verdict="go" if dried else "fix",
        text=Note("gate-dried-air", values={"dried": dried}),
        mend=None if dried else Note("gate-dried-air-mend"),
        source=PRACTICE,
        unknown=() if dried else ("part: desiccant column",),
    )
