"""The maps of a generator on a sheet, beside its answer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ozonewright.bench.generator import Mapped
from ozonewright.questions.generator.map import Over
from ozonewright.show.generator_map import Field, map_figure_of
from ozonewright.show.sheet.blocks import Figure, Section, Table
from ozonewright.show.sheet.generator import generator_section

DRAWN: dict[Over, Field] = {"wall": "output", "power": "concentration"}
"""Over tube temperature the output, over power the concentration."""


def map_figures(mapped: Mapped) -> Iterator[Figure]:
    """Yield output over flow and tube temperature, and concentration over flow and power."""
    maps = {one.over: one for one in mapped.maps}
    for over, field in DRAWN.items():
        if over not in maps:
            continue
        drawn = map_figure_of(maps[over], mapped.question, field)
        name = f"{mapped.question.setting or 'all runs'}, {drawn.title.lower()}"
        data = Table(drawn.title, drawn.head, drawn.rows, frozenset({0, 1, 2, 3}))
        yield Figure(name, drawn.title, drawn.svg, drawn.words, data, caption=drawn.caption)


def mapped_section(mapped: Mapped) -> Section:
    """Return the section of a generator, its maps behind the figure of its output."""
    section = generator_section(mapped.answer)
    place = next(n for n, block in enumerate(section.blocks) if isinstance(block, Figure)) + 1
    blocks = (*section.blocks[:place], *map_figures(mapped), *section.blocks[place:])
    return replace(section, blocks=blocks)
