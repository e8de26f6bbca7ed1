"""How long the gas lasts and what it costs, on a sheet."""

from __future__ import annotations

from ozonewright.questions.gas_use import GasUse
from ozonewright.show.gas_use import (
    FLOW_HEADS,
    alternative_line,
    answer_parts,
    details,
    flow_cells,
)
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.sheet.blocks import Lines, Notes, Section, Table, kept
from ozonewright.show.sheet.run import not_stated


def gas_use_section(found: GasUse, level: int = 1) -> Section:
    """Return the section of a gas supply."""
    blocks = (
        answer_parts(found),
        Lines("Next", sentences(found.next), numbered=True),
        Table("What it comes to", ("figure", "value"), tuple(details(found)), frozenset({1})),
        Lines(
            "Instead",
            tuple(f"{alternative_line(row, found.currency)}." for row in found.alternatives),
        ),
        Table(
            "Outputs at several flows",
            FLOW_HEADS,
            tuple(map(flow_cells, found.flows)),
            frozenset(range(len(FLOW_HEADS))),
        ),
        Lines("Working", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated([name.replace("_", " ") for name in found.unknowns]),
    )
    return Section("Gas use", "gas-use", kept(blocks), found.sources, ("gas_use",), level)
