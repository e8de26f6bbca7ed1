"""Figures of drift and of a plan, with their words and the numbers behind them."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.drift import Drift
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.drift import fit_text
from ozonewright.show.drift_figures import causes_drawn, left_over_figure, series_figure
from ozonewright.show.drift_page import chosen_figure, chosen_run, chosen_words
from ozonewright.show.reaction_marks import marks_figure
from ozonewright.show.sheet.blocks import Figure, Table
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.show.sheet.setting_figure import NO_LINE
from ozonewright.show.words.drift import cause_words
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

SERIES = "Ozone collected against on-time, with the line and its band"
LEFT_OVER = "What is left when the slope is taken off"
TITRES = "Titre to expect of the next run, by cause"
READ_SO = "A surplus lies level, a lag below nought, a generator that settles climbs."


def drift_figures(found: Drift) -> Iterator[Figure]:
    """Yield the series, what is left of it, and the titres of the next run."""
    for figure in (drift_series(found), drift_left_over(found), drift_titres(found)):
        if figure is not None:
            yield figure


def drift_series(found: Drift) -> Figure | None:
    """Return collected mass against on-time with the line and its band."""
    svg = series_figure(found)
    if not svg:
        return None
    heads = ("run or line", "on-time / min", "ozone / mg", "u or 95 % low / mg", "high / mg")
    data = Table(SERIES, heads, tuple(_series(found)), frozenset({1, 2, 3, 4}))
    line = "The line through the runs with its 95 % band."
    caption = f"{line if fit_text(found) else NO_LINE} Open points: discharge off."
    name = f"{_name(found)}, series"
    return Figure(name, SERIES, svg, _series_words(found), data, caption=caption)


def drift_left_over(found: Drift) -> Figure | None:
    """Return what is left of each run when the slope is taken off, and what causes foretell."""
    svg = left_over_figure(found)
    if not svg:
        return None
    head = ("cause or run", "on-time / min", "ozone / mg")
    data = Table(LEFT_OVER, head, tuple(_curves(found)), frozenset({1, 2}))
    drawn = "; ".join(causes_drawn(found))
    told = f" In dashes what the likeliest causes foretell for a cold run: {drawn}."
    caption = f"{LEFT_OVER}. {READ_SO}{told if drawn else ''}"
    words = f"{_series_words(found)}{f' Curves: {drawn}.' if drawn else ''}"
    return Figure(f"{_name(found)}, left over", LEFT_OVER, svg, words, data, caption=caption)


def drift_titres(found: Drift) -> Figure | None:
    """Return the titre to expect of the next run under each cause."""
    row, svg = chosen_run(found), chosen_figure(found)
    if row is None or not svg:
        return None
    rows = tuple(
        (cause_words(cause), figure_text(titre, Kind.VOLUME, "mL"),
         figure_text(row.u_titre[cause], Kind.VOLUME, "mL"))
        for cause, titre in row.titre.items()
    )  # fmt: skip
    data = Table(TITRES, ("cause", "titre / mL", "u titre / mL"), rows, frozenset({1, 2}))
    words = "; ".join(f"{cause}: {titre} mL" for cause, titre, _ in rows)
    told = (
        f"{chosen_words(found)}: the titre under each cause, with two standard deviations to each "
        "side."
    )
    return Figure(f"{_name(found)}, next titres", TITRES, svg, f"{words}.", data, caption=told)


def _name(found: Drift) -> str:
    return found.setting or "series"


def _series(found: Drift) -> Iterator[tuple[str, ...]]:
    for row in found.points:
        if row.on_time is not None and row.ozone is not None:
            u = figure_text(row.u_ozone, Kind.MASS, "mg")
            yield row.label, *_pair(row.on_time, row.ozone), u, ""
    for band in found.fit.band if found.fit else ():
        ends = (figure_text(end, Kind.MASS, "mg") for end in (band.low, band.high))
        yield "line", *_pair(band.on_time, band.middle), *ends


def _pair(on_time: float | None, ozone: float | None) -> tuple[str, str]:
    return figure_text(on_time, Kind.TIME, "min"), figure_text(ozone, Kind.MASS, "mg")


def _series_words(found: Drift) -> str:
    rows = [row for row in _series(found) if row[0] != "line"]
    return "; ".join(f"{row[0]}: {row[2]} mg in {row[1]} min" for row in rows) + "."


def _curves(found: Drift) -> Iterator[tuple[str, ...]]:
    for row in found.points:
        if row.on_time is not None and row.ozone is not None:
            yield row.label, *_pair(row.on_time, row.ozone)
    for curve in found.curves:
        yield cause_words(curve.cause), *_pair(curve.on_time, curve.middle)


def plan_figure(plan: ReactionPlan) -> Figure | None:
    """Return the marks of a reaction on its on-time, or None while there is no on-time."""
    svg = marks_figure(plan)
    if not svg or not isinstance(plan.on_time, Estimate):
        return None
    low, high = plan.on_time.interval
    rows = tuple(
        (words, figure_text(value, Kind.TIME, "min"))
        for words, value in (
            ("look from", plan.look_from),
            ("95 % low", low),
            ("done", plan.on_time.value),
            ("95 % high", high),
            ("stop by", plan.stop_by),
        )
    )
    data = Table("Marks on the on-time", ("mark", "on-time / min"), rows, frozenset({1}))
    words = "; ".join(f"{mark} {minutes} min" for mark, minutes in rows)
    name = f"{plan.label or 'reaction'}, marks"
    band = "Band: where the end lies with 95 %."
    return Figure(name, data.caption, svg, f"{words}.", data, caption=band)
