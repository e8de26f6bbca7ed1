"""The answer to a gas line on the drawing of its rig."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ozonewright.questions.gas_line import GasLine
from ozonewright.records.rig import Rig
from ozonewright.show.drawing import Readout
from ozonewright.show.gas_line import answer_line
from ozonewright.show.numbers import quantity
from ozonewright.units import Kind


def readout_of(
    rig: Rig, found: GasLine, concentration: Mapping[str, float] | None = None, beside: str = ""
) -> Readout:
    """Return flows, pressures and the bottleneck for the drawing, and the line below it."""
    words = " ".join(text for text in (*_caption(rig, found), beside) if text)
    return Readout(
        flow={row.name: row.flow for row in found.parts if row.flow is not None},
        pressure={row.name: row.inlet for row in found.parts if row.inlet is not None},
        drop={row.name: row.drop for row in found.parts if row.drop is not None},
        bottleneck=found.bottleneck or "",
        largest=found.largest_loss or "",
        concentration=concentration or {},
        caption=words,
    )


def _caption(rig: Rig, found: GasLine) -> Iterator[str]:
    line = answer_line(found)
    yield f"{line[:1].upper()}{line[1:]}."
    if found.hold_up:
        text = f"Hold-up {quantity(found.hold_up, Kind.VOLUME, 'mL', figures=3)}"
        if found.hold_up_time is not None:
            text += f", {quantity(found.hold_up_time, Kind.TIME, 's', figures=2)} to the liquid"
        yield f"{text}."
    yield _suck_back(rig, found)


def _suck_back(rig: Rig, found: GasLine) -> str:
    """Return what the liquid would do when the gas stops, and whether a bottle stands for it."""
    back = found.suck_back
    if back is None or back.volume is None:
        return ""
    text = f"Suck-back {quantity(back.volume, Kind.VOLUME, 'mL', figures=2)}"
    safety = next((part for part in rig.parts if part.name == back.safety_bottle), None)
    if safety is None:
        return f"{text}; no safety bottle before it."
    room = safety.value("volume")
    if room is None or back.safety_bottle_holds is None:
        return f"{text}; how much the safety bottle holds is not stated."
    size = quantity(room, Kind.VOLUME, "mL", figures=3)
    verb = "holds" if back.safety_bottle_holds else "is too small with"
    return f"{text}; the safety bottle {verb} {size}."
