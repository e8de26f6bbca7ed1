"""A rig on a sheet: its drawing, what flows, what was typed of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.errors import AppError
from ozonewright.notebook import Entry
from ozonewright.questions.gas_line import GasLine
from ozonewright.records.rig import Rig
from ozonewright.show.drawing import Readout, rig_drawing
from ozonewright.show.gas_line import answer_line, loss_line
from ozonewright.show.gas_line_drawing import readout_of
from ozonewright.show.numbers import percent, significant
from ozonewright.show.pages import remarks
from ozonewright.show.sheet.blocks import Block, Figure, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.run import not_stated
from ozonewright.show.sheet.setting import troubles
from ozonewright.show.sheet.typed import document
from ozonewright.units import Kind, number


def rig_section(
    rig: Rig, line: GasLine | None, history: Sequence[Entry] = (), trouble: Sequence[AppError] = ()
) -> Section:
    """Return the section of one rig."""
    return Section(
        f"Rig {rig.label}" if rig.label else "Rig",
        "rig",
        kept(
            (
                *troubles(trouble),
                *_flow(line),
                _drawing(rig, line),
                Notes("Notes", remarks(line.notes) if line else ()),
                not_stated(line.unknowns if line else ()),
                *(document(history) if history else ()),
            )
        ),
        line.sources if line else (),
        ("gas_line",) if line else (),
    )


def _flow(line: GasLine | None) -> Iterator[Block]:
    if line is not None:
        answer = answer_line(line)
        yield Text(f"{answer[:1].upper()}{answer[1:]}.")
        yield Text(loss_line(line))


def _drawing(rig: Rig, line: GasLine | None) -> Figure:
    drawn = rig_drawing(rig, readout_of(rig, line) if line else Readout())
    name = rig.label or "rig"
    return Figure(
        f"{name}, gas line", f"Gas line {name}", drawn.wide, drawn.words,
        _parts(line) if line else None, wide=True, narrow=drawn.tall, caption=drawn.caption,
    )  # fmt: skip


def _parts(line: GasLine) -> Table:
    rows = tuple(
        (
            row.name,
            row.kind,
            _text(row.flow, Kind.NORMAL_FLOW, "NL/min"),
            _text(row.inlet, Kind.PRESSURE_DIFFERENCE, "kPa"),
            _text(row.drop, Kind.PRESSURE_DIFFERENCE, "kPa"),
            "" if row.share is None else percent(row.share),
        )
        for row in line.parts
    )
    head = ("part", "kind", "flow / (NL/min)", "before it / kPa gauge", "lost / kPa", "share")
    return Table("Part by part", head, rows, frozenset({2, 3, 4, 5}))


def _text(value: float | None, kind: Kind, unit: str) -> str:
    return "" if value is None else significant(number(value, kind, unit))
