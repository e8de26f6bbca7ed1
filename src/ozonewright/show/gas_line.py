"""The answer to a gas line as text: answer first, then the line part by part."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.gas_line import ChangeRow, GasLine, PartRow
from ozonewright.questions.gas_line.meter import Meter
from ozonewright.show.numbers import quantity
from ozonewright.show.wrap import foot, marked, noted, wrapped
from ozonewright.units import Kind, number

SHOWN = 8
"""Changes that are listed; all of them stand in the JSON."""


def answer_line(found: GasLine) -> str:
    """Return the one line that answers."""
    if found.flow is None or found.flow_ambient is None:
        return "no flow can be stated: nothing in this line limits it"
    if found.flow == 0.0:
        return "no flow"
    ambient = quantity(found.flow_ambient, Kind.VOLUME_FLOW, "L/min", figures=3)
    normal = quantity(found.flow, Kind.NORMAL_FLOW, "NL/min", figures=3)
    return f"{ambient} at the room's conditions ({normal} dry)"


def loss_line(found: GasLine) -> str:
    """Return where most pressure goes, and what holds the flow back most."""
    row = next((row for row in found.parts if row.name == found.largest_loss), None)
    parts = []
    if row is not None and row.drop is not None and found.pressure is not None:
        parts.append(f"Largest loss: {row.name}, {_kpa(row.drop)} of {_kpa(found.pressure)} kPa.")
    if found.bottleneck is not None:
        without = (
            "the flow would have no limit"
            if found.bottleneck_flow is None
            else quantity(found.bottleneck_flow, Kind.NORMAL_FLOW, "NL/min", figures=3)
            + " would flow"
        )
        parts.append(f"Bottleneck: {found.bottleneck}; without its own loss {without}.")
    return " ".join(parts)


def gas_line_text(found: GasLine) -> str:
    """Return the whole answer for a terminal."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: GasLine) -> Iterator[str]:
    yield f"{found.label}: {answer_line(found)}" if found.label else answer_line(found)
    yield from wrapped(loss_line(found))
    yield from marked(note for note in found.notes if note.level == "wrong")
    yield ""
    yield from _table(found.parts)
    yield from _changes(found, "What would bring more", found.what_if[:SHOWN])
    yield from _changes(found, "What a little more of each costs", found.sensitivities)
    yield from _times(found)
    others = [note for note in found.notes if note.level != "wrong"]
    yield from noted(others)
    yield from foot(found.unknowns, found.sources)
    yield "NL: litres of dry gas at 0 °C and 101.325 kPa, 22.41397 L/mol."


def _table(rows: tuple[PartRow, ...]) -> Iterator[str]:
    width = min(max((len(row.name) for row in rows), default=4), 24)
    yield f"  {'part':{width}}  {'kind':16}  {'NL/min':>7}  {'kPa before':>10}  {'lost':>6}  share"
    for row in rows:
        flow = "" if row.flow is None else f"{number(row.flow, Kind.NORMAL_FLOW, 'NL/min'):.3f}"
        before = "" if row.inlet is None else _kpa(row.inlet)
        lost = "" if row.drop is None else _kpa(row.drop)
        share = "" if row.share is None else f"{100.0 * row.share:.0f} %"
        yield (
            f"  {row.name[:width]:{width}}  {row.kind:16}  {flow:>7}  {before:>10}  {lost:>6}  "
            f"{share:>5}"
        ).rstrip()


def _kpa(pressure: float) -> str:
    text = f"{number(pressure, Kind.PRESSURE_DIFFERENCE, 'kPa'):.2f}"
    return text.replace("-0.00", "0.00").replace("-", "\u2212")


def _changes(found: GasLine, head: str, rows: tuple[ChangeRow, ...]) -> Iterator[str]:
    if not rows:
        return
    yield from ("", f"{head} (L/min at the room's conditions, difference)")
    for row in rows:
        change, flow, difference = change_cells(found, row)
        yield f"  {flow:>8}  {difference:>7}  {change}"


def change_cells(found: GasLine, row: ChangeRow) -> tuple[str, str, str]:
    """Return a change, the flow it brings in L/min and the difference."""
    if row.flow_ambient is None or found.flow_ambient is None:
        return row.change, "no limit", ""
    flow = number(row.flow_ambient, Kind.VOLUME_FLOW, "L/min")
    difference = f"{flow - number(found.flow_ambient, Kind.VOLUME_FLOW, 'L/min'):+.3f}"
    if float(difference) == 0.0:
        return row.change, f"{flow:.3f}", "none"
    return row.change, f"{flow:.3f}", difference.replace("-", "\u2212")


def _times(found: GasLine) -> Iterator[str]:
    parts = []
    if found.hold_up is not None:
        text = f"Hold-up to the liquid {quantity(found.hold_up, Kind.VOLUME, 'mL', figures=3)}"
        if found.hold_up_time is not None:
            text += f", {quantity(found.hold_up_time, Kind.TIME, 's', figures=2)}"
        parts.append(text)
    if found.residence is not None:
        time = quantity(found.residence, Kind.TIME, "s", figures=2)
        parts.append(f"{'time' if parts else 'Time'} in the discharge tube {time}")
    if parts:
        yield ""
        yield from wrapped("; ".join(parts) + ".")


def meter_text(found: Meter) -> str:
    """Return what a meter says for a terminal."""
    lines = []
    if found.flow is not None and found.normal is not None:
        flow = quantity(found.flow.value, Kind.VOLUME_FLOW, "L/min", found.flow.u)
        normal = quantity(found.normal.value, Kind.NORMAL_FLOW, "NL/min", found.normal.u)
        lines.append(f"{flow} at the meter; {normal} of dry gas")
    if found.factor is not None:
        lines.append(f"true flow = {found.factor.value:.3f} × reading")
    if found.water is not None:
        lines.append(f"water vapour: {quantity(found.water.value, Kind.SHARE, '%', figures=2)}")
    lines += marked(found.notes)
    return "\n".join(lines) + "\n"
