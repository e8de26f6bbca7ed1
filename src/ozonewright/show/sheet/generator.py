"""A generator on a sheet: where it runs on its map, and what a change would bring."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.generator import Generator
from ozonewright.show.generator import (
    answer_line,
    best_line,
    clock_line,
    lumped_cells,
    place_line,
    told,
    upgrade_cells,
)
from ozonewright.show.generator_figure import TITLE, map_figure
from ozonewright.show.numbers import significant
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.sheet.blocks import Figure, Lines, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.show.sheet.run import not_stated
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

CAPTION = (
    "Line and 95 % at the power, feed and tube temperature of this place; open points are runs at "
    "another feed or power."
)


def generator_section(found: Generator, level: int = 1) -> Section:
    """Return the section of a generator."""
    blocks = (
        Text(f"{answer_line(found)}."),
        Text(place_line(found)),
        Text(clock_line(found)),
        Lines("Next", sentences(found.next), numbered=True),
        generator_figure(found),
        _changes(found),
        Lines("Flow for a wish", tuple(map(best_line, found.best))),
        _runs(found),
        Table(
            "What is not known of the tube",
            ("unknown", "after the runs", "told by them"),
            tuple(lumped_cells(found)),
            frozenset({2}),
        ),
        Lines("Working", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated(found.unknowns),
    )
    title = f"Generator, {found.setting}" if found.setting else "Generator"
    return Section(title, "generator", kept(blocks), found.sources, ("generator",), level)


def generator_figure(found: Generator) -> Figure:
    """Return output against flow, its band and the runs."""
    rows = tuple(_points(found))
    head = ("line or run", "flow / (NL/min)", "output / (g/h)", "95 % low / (g/h)",
            "95 % high / (g/h)")  # fmt: skip
    words = "; ".join(f"{name} {rate} g/h at {flow} NL/min" for name, flow, rate, *_ in rows)
    name = f"{found.setting or 'all runs'}, output against flow"
    data = Table(TITLE, head, rows, frozenset({1, 2, 3, 4}))
    return Figure(name, TITLE, map_figure(found), f"{words}.", data, caption=CAPTION)


def _points(found: Generator) -> Iterator[tuple[str, ...]]:
    for row in found.curve:
        if isinstance(row.rate, Estimate):
            rates = (_grams(one) for one in (row.rate.value, *row.rate.interval))
            yield "line", figure_text(row.flow, Kind.NORMAL_FLOW, "NL/min"), *rates
    for run in found.runs:
        flow = figure_text(run.flow, Kind.NORMAL_FLOW, "NL/min")
        yield run.label, flow, _grams(run.measured), "", ""


def _grams(rate: float | None) -> str:
    return figure_text(rate, Kind.MASS_RATE, "g/h")


def _changes(found: Generator) -> Table:
    rows = []
    for change, rate, gain, strength, price, per in map(upgrade_cells, found.upgrades):
        money = ": ".join(part for part in (price, per) if part)
        rows.append((change, rate, gain, strength, money))
    head = ("change", "output", "gain (95 %)", "concentration", "for the money")
    return Table("What a change would bring", head, tuple(rows), frozenset({1, 3}))


def _runs(found: Generator) -> Table:
    rows = tuple(
        (run.label, told(run, "flow"), told(run, "measured"), told(run, "modelled"),
         significant(run.ratio or 0.0, 3))
        for run in found.runs
    )  # fmt: skip
    head = ("run", "flow", "measured", "model", "measured over model")
    return Table("Runs beside the model", head, rows, frozenset({1, 2, 3, 4}))
