"""Plug and discharge power on a sheet."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.power import Power
from ozonewright.show.numbers import percent
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.power import (
    CAUTIONS,
    answer_line,
    basis_line,
    loop_cells,
    power_cells,
    yield_line,
)
from ozonewright.show.power_figure import TITLE, loop_figure
from ozonewright.show.sheet.blocks import Block, Figure, Lines, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.show.sheet.run import not_stated
from ozonewright.units import Kind

HEAD = ("", "", "95 %")
CAPTION = "Mean cycle; chain line and corners are those of two capacitors."


def power_section(found: Power, level: int = 1) -> Section:
    """Return the section of a generator's power."""
    budget = tuple((one.input, percent(one.share or 0.0)) for one in found.budget)
    blocks: tuple[Block, ...] = (
        Text(f"{answer_line(found)}. {yield_line(found)}"),
        Text(basis_line(found)),
        Lines("Take care", CAUTIONS),
        Lines("Next", sentences(found.next), numbered=True),
        *power_figures(found),
        Table("Powers and yields", HEAD, power_cells(found)),
        Table("The loop as two capacitors", HEAD, loop_cells(found.loop) if found.loop else ()),
        Table("Where the uncertainty of the discharge power comes from",
              ("reading", "of the variance"), budget, frozenset({1})),
        Lines("Working", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated(found.unknowns),
    )  # fmt: skip
    return Section("Power", "power", kept(blocks), found.sources, ("power",), level)


def power_figures(found: Power) -> Iterator[Figure]:
    """Yield the recorded loop, where there is one."""
    if found.loop is None:
        return
    rows = tuple(
        (
            figure_text(one.voltage or 0.0, Kind.VOLTAGE, "kV"),
            figure_text(one.charge or 0.0, Kind.CHARGE, "µC"),
        )
        for one in found.loop.outline
    )
    data = Table(TITLE, ("voltage / kV", "charge / µC"), rows, frozenset({0, 1}))
    words = f"{answer_line(found)}. {basis_line(found)} {CAPTION}"
    yield Figure("loop", TITLE, loop_figure(found.loop), words, data, caption=CAPTION)
