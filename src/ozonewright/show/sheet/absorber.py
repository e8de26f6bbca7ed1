"""The bottles of a rig on a sheet: what they take up, and a reaction in the flask."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.absorber import Absorber, SimulatedRun
from ozonewright.show import absorber_course
from ozonewright.show.absorber import (
    answer_parts,
    bottle_details,
    changes_shown,
    details,
    what_if_text,
)
from ozonewright.show.absorber_figures import curve_rows, run_figures, shown_points, uptake_figures
from ozonewright.show.absorber_run import HEADS, course, point_cells, run_details, run_parts
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.sheet.blocks import Block, Figure, Lines, Notes, Section, Table, kept
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.show.sheet.run import not_stated
from ozonewright.units import Kind

STRENGTH_OF_LAST = "Gas blue: behind the last bottle, with the band of 95 in a hundred."
BEST = "By the best estimates, the rest as it is."
SHARES = (
    "Gas blue: the middle of the runs and the band of 95 in a hundred of the product; grey: "
    "converted."
)
STRENGTH = "Gas blue: the middle of the runs and the band of 95 in a hundred."
RUN_HEAD = (
    "on-time / min", "converted / %", "product / %", "product 95 % low / %",
    "product 95 % high / %", "off-gas / (g/Nm³)", "off-gas 95 % low / (g/Nm³)",
    "off-gas 95 % high / (g/Nm³)",
)  # fmt: skip


def absorber_section(found: Absorber, level: int = 1) -> Section:
    """Return the section of an absorber train."""
    changes = tuple(_begun(what_if_text(row)) for row in changes_shown(found))
    blocks: tuple[Block, ...] = (
        answer_parts(found),
        Lines("What would change it", changes),
        Table("What it comes to", ("figure", "value"), tuple(details(found)), frozenset({1})),
        *absorber_figures(found),
        _course_table(found),
        *(
            Table(row.name, ("figure", "value"), tuple(bottle_details(row)), frozenset({1}))
            for row in found.bottles
        ),
        Lines("Working, first bottle", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated(found.unknowns),
    )
    title = f"Absorber of {found.label}" if found.label else "Absorber"
    return Section(title, "absorber", kept(blocks), found.sources, ("absorber",), level)


def _begun(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def absorber_figures(found: Absorber) -> Iterator[Figure]:
    """Yield the uptake against depth, flow and bubble."""
    for title, svg, of, unit in uptake_figures(found):
        rows = tuple(curve_rows(found, of))
        data = Table(title, (f"{of} / {unit}", "taken up / %"), rows, frozenset({0, 1}))
        words = "; ".join(f"{share} % at {at} {unit}" for at, share in rows)
        name = f"{found.label or 'rig'}, uptake against {of}"
        yield Figure(name, title, svg, f"{words}.", data, caption=BEST)
    yield _slip_figure(found)


def _slip_figure(found: Absorber) -> Figure:
    """Return the slip against minutes of gas, with the course of every bottle as numbers."""
    head = absorber_course.heads(found)
    told = "; ".join(" ".join(cells) for cells in absorber_course.lines(found))
    data = Table(
        absorber_course.TITLE,
        absorber_course.DATA_HEAD,
        tuple(absorber_course.data_rows(found)),
        frozenset(range(len(absorber_course.DATA_HEAD))) - {1},
    )
    name = f"{found.label or 'rig'}, slip against minutes"
    caption = STRENGTH_OF_LAST + (" Grey: behind the first." if len(found.bottles) > 1 else "")
    return Figure(
        name, absorber_course.TITLE, absorber_course.figure(found),
        f"{', '.join(head)}: {told}.", data, caption=caption,
    )  # fmt: skip


def _course_table(found: Absorber) -> Table:
    head = absorber_course.heads(found)
    rows = tuple(absorber_course.lines(found))
    return Table(absorber_course.TABLE, head, rows, frozenset(range(len(head))))


def simulated_section(found: SimulatedRun, level: int = 1) -> Section:
    """Return the section of a reaction in its flask, minute by minute."""
    rows = tuple(map(point_cells, course(found)))
    blocks: tuple[Block, ...] = (
        run_parts(found),
        Table("What it comes to", ("figure", "value"), tuple(run_details(found)), frozenset({1})),
        *simulated_figures(found),
        Table("Minute by minute", HEADS, rows, frozenset(range(len(HEADS)))),
        Lines("Working", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated(found.unknowns),
    )
    title = "Reaction in its flask"
    return Section(title, "absorber", kept(blocks), found.sources, ("absorber",), level)


def simulated_figures(found: SimulatedRun) -> Iterator[Figure]:
    """Yield conversion and off-gas against on-time."""
    rows = tuple(_points(found))
    numbers = frozenset(range(len(RUN_HEAD)))
    for (title, svg), caption in zip(run_figures(found), (SHARES, STRENGTH), strict=True):
        told = "; ".join(" ".join(cells) for cells in map(point_cells, course(found)))
        words = f"{', '.join(HEADS)}: {told}."
        data = Table(title, RUN_HEAD, rows, numbers)
        yield Figure(f"flask, {title}", title, svg, words, data, caption=caption)


def _points(found: SimulatedRun) -> Iterator[tuple[str, ...]]:
    for point in shown_points(found):
        shares = (point.converted, point.product, point.product_low, point.product_high)
        gas = (point.off_gas, point.off_gas_low, point.off_gas_high)
        yield (
            figure_text(point.time, Kind.TIME, "min"),
            *(figure_text(one, Kind.SHARE, "%") for one in shares),
            *(figure_text(one, Kind.NORMAL_CONCENTRATION, "g/Nm3") for one in gas),
        )
