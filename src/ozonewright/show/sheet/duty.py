"""A generator on a timer, on a sheet."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.bench.duty import output_course, warming
from ozonewright.questions.duty import Duty
from ozonewright.show.duty import (
    CAUTIONS,
    air_line,
    answer_line,
    body_lines,
    cooling_lines,
    limit_line,
    output_lines,
    pattern_lines,
    wasted_line,
)
from ozonewright.show.duty_figure import (
    OUTPUT,
    TITLE,
    WARM_UP,
    output_figure,
    warm_up_figure,
    warming_figure,
)
from ozonewright.show.pages import remarks, sentences
from ozonewright.show.sheet.blocks import Block, Figure, Lines, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.show.sheet.run import not_stated
from ozonewright.units import Kind

HEAD = ("on", "least rest", "peak", "ozone per hour of the clock", "")


def duty_section(found: Duty, level: int = 1) -> Section:
    """Return the section of a timer."""
    rows = tuple(
        (on, off, peak, ozone or "–", "delivers most" if row.best else "")
        for (on, off, peak, ozone), row in zip(pattern_lines(found), found.patterns, strict=True)
    )
    answer = answer_line(found)
    blocks: tuple[Block, ...] = (
        Text(f"{answer[:1].upper()}{answer[1:]}."),
        *map(Text, output_lines(found)),
        Text(limit_line(found)),
        Text(wasted_line(found)),
        Lines("From the log", tuple(body_lines(found))),
        Lines("Next", sentences(found.next), numbered=True),
        *duty_figures(found),
        Table(
            "What air would bring, the tube running on",
            ("air", "flow", "velocity", "air in the box", "tube"),
            tuple(cooling_lines(found)),
            frozenset({1, 2, 3, 4}),
        ),
        Text(air_line(found)),
        Table("Below the limit in 39 of 40 cases", HEAD, rows, frozenset({2, 3})),
        Lines("Take care", CAUTIONS),
        Lines("Working", sentences(found.working), numbered=True),
        Notes("Notes", remarks(found.notes)),
        not_stated(found.unknowns),
    )
    return Section("Duty", "duty", kept(blocks), found.sources, ("duty",), level)


def _warm_up(found: Duty, svg: str) -> Figure:
    """Return the readings of the log beside the curve."""
    rows = tuple(
        (figure_text(row.time, Kind.TIME, "min"), figure_text(row.read, Kind.TEMPERATURE, "°C"),
         figure_text(row.fitted, Kind.TEMPERATURE, "°C"))
        for row in found.log
    )  # fmt: skip
    head = ("time / min", "read / °C", "fitted / °C")
    data = Table(WARM_UP, head, rows, frozenset({0, 1, 2}))
    words = "; ".join(body_lines(found))
    return Figure("timer, warm-up", WARM_UP, svg, f"{words}.", data, caption=f"{words}.")


def duty_figures(found: Duty) -> Iterator[Figure]:
    """Yield the warmth from cold, and what comes out where that falls as the tube warms."""
    times, shares = warming(found)
    rows = tuple(
        (figure_text(time, Kind.TIME, "min"), figure_text(share, Kind.SHARE, "%"))
        for time, share in zip(times, shares, strict=True)
    )
    data = Table(TITLE, ("time / min", "of the continuous rise / %"), rows, frozenset({0, 1}))
    words = f"From cold, {answer_line(found)}. {limit_line(found)}"
    yield Figure("timer, warmth", TITLE, warming_figure(found), words, data, caption="From cold.")
    if (svg := warm_up_figure(found)) is not None:
        yield _warm_up(found, svg)
    points, drawn = output_course(found), output_figure(found)
    if points is None or drawn is None:
        return
    rows = tuple(
        (figure_text(time, Kind.TIME, "min"), figure_text(rate, Kind.MASS_RATE, "g/h"))
        for time, rate in points
    )
    data = Table(OUTPUT, ("time / min", "output / (g/h)"), rows, frozenset({0, 1}))
    told = " ".join(output_lines(found))
    caption = "From cold; nothing comes while the discharge is off."
    yield Figure("timer, output", OUTPUT, drawn, f"{caption} {told}".strip(), data, caption=caption)
