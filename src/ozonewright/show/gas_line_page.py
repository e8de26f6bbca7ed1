"""The answer to a gas line as the parts of a page."""

from __future__ import annotations

from ozonewright.questions.gas_line import GasLine, PartRow
from ozonewright.show.gas_line import answer_line
from ozonewright.show.numbers import significant
from ozonewright.show.pages import Answer
from ozonewright.units import Kind, number

PART_HEADS = ("part", "NL/min", "kPa before", "lost", "share, %")
CHANGE_HEADS = ("change", "L/min", "difference")


def answer_parts(found: GasLine) -> Answer:
    """Return the large line: true flow at the room's conditions, the normal flow beside it."""
    if found.flow is None or found.flow_ambient is None or found.flow == 0.0:
        line = answer_line(found)
        return Answer(f"{line[:1].upper()}{line[1:]}", "", determined=False)
    return Answer(
        significant(number(found.flow_ambient, Kind.VOLUME_FLOW, "L/min"), 3),
        "L/min",
        f"{significant(number(found.flow, Kind.NORMAL_FLOW, 'NL/min'), 3)} NL/min of dry gas",
        "True flow at the room's temperature and pressure.",
    )


def part_cells(row: PartRow) -> tuple[str, ...]:
    """Return the cells of one part, in the order of the heads."""
    flow = "" if row.flow is None else f"{number(row.flow, Kind.NORMAL_FLOW, 'NL/min'):.3f}"
    share = "" if row.share is None else f"{100.0 * row.share:.0f}"
    return (row.name, flow, _kpa(row.inlet), _kpa(row.drop), share)


def _kpa(pressure: float | None) -> str:
    if pressure is None:
        return ""
    text = f"{number(pressure, Kind.PRESSURE_DIFFERENCE, 'kPa'):.2f}"
    return "0.00" if text == "-0.00" else text.replace("-", "\u2212")
