"""A run on a sheet: what came out, the sum line by line, the budget, what was typed."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.notebook import Entry
from ozonewright.questions.output import Output
from ozonewright.results import Quantity, Row, Share, declared
from ozonewright.show.numbers import unit_text, with_u
from ozonewright.show.pages import budget_lines, output_answer, remarks, sentences
from ozonewright.show.sheet.blocks import Lines, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.typed import document
from ozonewright.uncertain import Estimate

WITHDRAWN = "Withdrawn: struck out, and kept. Nothing else is calculated from it."


def run_section(found: Output, history: Sequence[Entry] = ()) -> Section:
    """Return the section of one run."""
    struck = bool(history) and history[-1].withdrawn
    of = f"Setting: {found.setting}." if found.setting else ""
    started = f"Started {found.started:%Y-%m-%d %H:%M}." if found.started else ""
    return Section(
        f"Run {found.label}" if found.label else "Run",
        "run",
        kept(
            (
                Text(WITHDRAWN if struck else ""),
                Text(" ".join(part for part in (of, started) if part), soft=True),
                output_answer(found),
                Lines("Working", sentences(found.working), numbered=True),
                budget_table(found.budget),
                values_table(found),
                Notes("Notes", remarks(found.notes)),
                not_stated(found.unknowns),
                *(document(history) if history else ()),
            )
        ),
        found.sources,
        ("output",),
        level=2,
    )


def not_stated(unknowns: Sequence[str]) -> Text:
    """Return what the document leaves open."""
    return Text(f"Not stated: {', '.join(unknowns)}." if unknowns else "", soft=True)


def budget_table(shares: Sequence[Share]) -> Table:
    """Return where the uncertainty comes from."""
    rows = tuple((line.input, line.percent) for line in budget_lines(shares))
    head = ("reading", "of the variance")
    return Table("Where the uncertainty comes from", head, rows, frozenset({1}))


def values_table(found: Row) -> Table:
    """Return every figure that an answer knows with an uncertainty, and its interval."""
    rows = []
    for name, declaration in declared(found):
        value = getattr(found, name)
        if isinstance(declaration, Quantity) and isinstance(value, Estimate):
            number = declaration.plain(value.value)
            assert number is not None
            text = with_u(number, declaration.plain_spread(value.u))
            rows.append((declaration.words, text, unit_text(declaration.unit) or "–"))
    head = ("figure", "value ± u", "unit")
    return Table("Figures", head, tuple(rows), frozenset({1}))
