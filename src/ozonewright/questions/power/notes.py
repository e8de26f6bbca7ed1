"""What must be said beside the powers, and what to do next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from ozonewright.questions.power.result import LoopRow
from ozonewright.references.constants import constant
from ozonewright.results import Note
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

if TYPE_CHECKING:
    from ozonewright.questions.power.answer import Asked

Found = Mapping[str, Estimate]
NEAR_IGNITION = 1.25
"""Peak over ignition voltage below which Manley's power is the difference of two near values."""
LIKE_MANLEY = 0.15
PHASE_MATTERS = 0.02
"""Share of the power for a degree of phase from which it is told."""


def notes_of(asked: Asked, found: Found, row: LoopRow | None) -> Iterator[Note]:
    """Yield what makes the answer doubtful or impossible."""
    yield from _impossible(found)
    if "discharge" in found and found["discharge"].interval[0] <= 0.0:
        yield Note("power-nothing-sure")
    if asked.way is None:
        yield Note("power-not-determined", "advice")
    yield from _plug(asked, found)
    if asked.loop is not None and row is not None:
        yield from _loop(asked, row)
    if (manley := asked.manley) is not None:
        if manley.voltage.kind is Kind.RMS_VOLTAGE:
            yield Note("power-rms")
        yield Note("power-manley", "advice")
        over = manley.voltage.value / found["ignition"].value
        if manley.voltage.kind is Kind.PEAK_VOLTAGE and over < NEAR_IGNITION:
            yield Note("power-near-ignition", values={"over": over})
    if asked.way == "reading":
        yield Note("power-reading", "advice")


def _impossible(found: Found) -> Iterator[Note]:
    if (supply := found.get("supply_efficiency")) is not None:
        above = supply.interval[0] > 1.0
        if supply.value > 1.0:
            code = "power-above-plug" if above else "power-near-plug"
            yield Note(code, "wrong" if above else "doubt", {"share": supply.value})
    best = constant("BEST_YIELD_OXYGEN").value
    for basis in ("plug", "discharge"):
        if f"share_{basis}" not in found:
            continue
        share, reached = found[f"share_{basis}"], found[f"yield_{basis}"].value
        if share.interval[0] > 1.0:
            yield Note("power-beyond-limit", "wrong", {"basis": basis, "share": share.value})
        elif reached > best:
            values = {"basis": basis, "reached": reached, "best": best}
            yield Note("power-high-yield", "doubt", values)


def _plug(asked: Asked, found: Found) -> Iterator[Note]:
    if asked.plug is not None and asked.plug.basis == "from digits":
        yield Note("power-meter")
    if "plug" in found and asked.standby is None:
        yield Note("power-standby-unknown", "advice")
    elif "plug" in found and asked.standby is not None:
        share = asked.standby.value / found["plug"].value
        yield Note("power-standby", "advice", {"share": share})


def _loop(asked: Asked, row: LoopRow) -> Iterator[Note]:
    loop = asked.loop
    assert loop is not None
    digits = [
        name
        for name, one in (("probe", loop.probe), ("capacitor", loop.capacitor))
        if one is not None and one.basis == "from digits"
    ]
    if digits:
        yield Note("power-instruments", values={"names": tuple(digits)})
    if loop.capacitor is None:
        yield Note("power-charge-exact")
    if loop.angle is None and abs(loop.per_degree) > PHASE_MATTERS:
        yield Note(
            "power-phase",
            values={"share": abs(loop.per_degree), "time": 1.0 / loop.frequency / 360.0},
        )
    yield from loop.notes
    if isinstance(row.manley, Estimate) and isinstance(row.energy, Estimate):
        ratio = row.manley.value / (row.energy.value * loop.frequency)
        if abs(ratio - 1.0) > LIKE_MANLEY:
            yield Note("power-unlike-manley", values={"ratio": ratio})


def next_notes(asked: Asked, found: Found) -> Iterator[Note]:
    """Yield what to do next, most useful first."""
    if "plug" not in found:
        yield Note("power-read-plug", "advice")
    if asked.rate is None:
        yield Note("power-state-output", "advice")
    if asked.way is None:
        yield Note("power-stay-at-plug", "advice")
    elif asked.way != "reading":
        one = found["discharge"]
        yield Note("power-keep", "advice", {"power": one.value, "u": one.u})


def unknowns_of(asked: Asked) -> Iterator[str]:
    """Yield what nobody stated and some answer waits for."""
    if asked.plug is None and asked.energy is None:
        yield "plug"
    if asked.standby is None:
        yield "standby"
    if asked.way is None:
        yield "discharge"
    if asked.rate is None:
        yield "output"
