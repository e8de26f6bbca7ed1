"""Two settings beside each other on a sheet: the ratio, what differs, what would tell more."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.comparison import Comparison
from ozonewright.show.compare import (
    difference_rows,
    order_line,
    page_answer,
    plan_lines,
    rates_line,
)
from ozonewright.show.compare_figure import TITLE, runs_figure
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.sheet.blocks import Figure, Lines, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.show.sheet.run import budget_table, not_stated
from ozonewright.units import Kind, size

NEXT = 3
CAPTION = (
    "A point for each run with its own uncertainty; below it the output of the setting with its "
    "95 % interval."
)


def comparison_section(found: Comparison, level: int = 1) -> Section:
    """Return the section of a comparison."""
    order = order_line(found)
    absent = ", ".join(found.not_compared)
    blocks = (
        page_answer(found),
        Text(rates_line(found)),
        Lines("Next", sentences(found.next[:NEXT]), numbered=True),
        compared_figure(found),
        Table(
            "What differs",
            ("what", found.first, found.second, ""),
            tuple(difference_rows(found.differs)),
        ),
        Text(
            f"Not stated in both, so not compared: {absent}." if found.not_compared else "",
            soft=True,
        ),
        Lines(
            "Runs that tell a difference (80 % chance)",
            (*plan_lines(found.plan), *((order,) if order else ())),
        ),
        Lines("Working", sentences(found.working), numbered=True),
        budget_table(found.budget),
        Notes("Notes", remarks(found.notes)),
        not_stated(found.unknowns),
    )
    title = f"Comparison {found.first} with {found.second}"
    return Section(title, "comparison", kept(blocks), found.sources, ("comparison",), level)


def compared_figure(found: Comparison) -> Figure:
    """Return the runs of both settings on one scale, with their means."""
    rows = tuple(_rows(found))
    head = ("setting", "run", "output / (g/h)", "u or 95 % low / (g/h)", "95 % high / (g/h)")
    words = "; ".join(f"{setting}, {run}: {rate} g/h" for setting, run, rate, *_ in rows)
    name = f"{found.first} and {found.second}, outputs"
    data = Table(TITLE, head, rows, frozenset({2, 3, 4}))
    return Figure(name, TITLE, runs_figure(found), f"{words}.", data, caption=CAPTION)


def _rows(found: Comparison) -> Iterator[tuple[str, ...]]:
    for run in found.runs:
        u = "" if run.u_rate is None else f"{run.u_rate / size(Kind.MASS_RATE, 'g/h'):.2g}"
        yield run.setting, run.label, figure_text(run.rate, Kind.MASS_RATE, "g/h"), u, ""
    for name, rate in ((found.first, found.first_rate), (found.second, found.second_rate)):
        if rate is not None:
            texts = (
                figure_text(one, Kind.MASS_RATE, "g/h") for one in (rate.value, *rate.interval)
            )
            yield name, "all runs", *texts
