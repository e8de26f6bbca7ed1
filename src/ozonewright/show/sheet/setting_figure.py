"""Collected mass against on-time with the numbers behind it; apart, for it loads little."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.questions.output import Output
from ozonewright.questions.setting import SettingOutput
from ozonewright.show.numbers import significant
from ozonewright.show.setting_figure import collected_against_time
from ozonewright.show.sheet.blocks import Figure, Table
from ozonewright.show.sheet.numbers import figure_text
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, size

NO_LINE = "One on-time: no line can be drawn."
A_SURPLUS = "A line through the runs that starts above nought speaks of a surplus."


def _value(one: Estimate | float | None) -> float | None:
    return one.value if isinstance(one, Estimate) else one


def setting_figure(
    name: str, runs: Sequence[Output], mean: SettingOutput | None = None
) -> Figure | None:
    """Return collected mass against on-time, or None without a run that has both."""
    slope, start = (mean.slope, mean.surplus or 0.0) if mean else (None, 0.0)
    svg = collected_against_time(runs, slope, start)
    if not svg:
        return None
    rows = tuple(
        (
            run.label or "",
            run.discharge,
            figure_text(_value(run.on_time), Kind.TIME, "min"),
            figure_text(_value(run.ozone), Kind.MASS, "mg"),
            _spread(run.ozone),
        )
        for run in runs
        if run.on_time is not None and run.ozone is not None
    )
    head = ("run", "discharge", "on-time / min", "ozone / mg", "u ozone / mg")
    data = Table("Ozone collected against on-time", head, rows, frozenset({2, 3, 4}))
    words = "; ".join(f"{row[0]}: {row[3]} mg in {row[2]} min" for row in rows)
    line = ""
    if slope is not None:
        line = (
            f" The line: {figure_text(start, Kind.MASS, 'mg')} mg and "
            f"{figure_text(slope, Kind.MASS_RATE, 'mg/min')} mg for each minute."
        )
    caption = NO_LINE if slope is None else A_SURPLUS
    return Figure(f"{name}, collected", data.caption, svg, f"{words}.{line}", data, caption=caption)


def _spread(one: Estimate | float | None) -> str:
    per = size(Kind.MASS, "mg")
    return significant(one.u / per, 2) if isinstance(one, Estimate) else ""
