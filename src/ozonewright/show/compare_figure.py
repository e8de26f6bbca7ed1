"""The runs of two settings on one scale, each setting on its own line, with its mean."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.comparison import Comparison
from ozonewright.show.figures import Axis, plot, scale_below, words_at, x_below
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number, size

HEIGHT = 190.0
FOOT = 150.0
ROWS = (38.0, 100.0)
"""Heights of the two lines."""
NAME = 46
ROOM = 1.05
TITLE = "Output of every run"


def runs_figure(found: Comparison) -> str:
    """Return the figure: a point for each run, a bar for the 95 % interval of each setting."""
    x = Axis("output, g/h", ROOM * max(_reach(found)))
    parts = [*scale_below(x, FOOT, HEIGHT)]
    for row, name, rate in zip(
        ROWS,
        (found.first, found.second),
        (found.first_rate, found.second_rate),
        strict=True,
    ):
        parts += _row(row, name, rate, found, x)
    return plot(TITLE, parts, HEIGHT)


def _reach(found: Comparison) -> Iterator[float]:
    yield from (_shown(row.rate or 0.0) + _spread(row.u_rate or 0.0) for row in found.runs)
    for rate in (found.first_rate, found.second_rate):
        if rate is not None:
            yield _shown(rate.value)


def _shown(rate: float) -> float:
    return number(rate, Kind.MASS_RATE, "g/h")


def _spread(u: float) -> float:
    return u / size(Kind.MASS_RATE, "g/h")


def _row(
    height: float, name: str, rate: Estimate | None, found: Comparison, x: Axis
) -> Iterator[str]:
    short = name if len(name) <= NAME else f"{name[: NAME - 1]}…"
    yield words_at(x_below(x, 0.0), height - 14.0, short, "start")
    yield f'<path class="grid" d="M{x_below(x, 0.0):.1f} {height:g}H{x_below(x, x.end):.1f}"/>'
    for row in found.runs:
        if row.setting == name and row.rate is not None:
            yield _run(height, _shown(row.rate), _spread(row.u_rate or 0.0), x)
    if rate is not None:
        low, high = (x_below(x, _shown(end)) for end in rate.interval)
        middle = x_below(x, _shown(rate.value))
        yield f'<path class="axis" d="M{low:.1f} {height + 14:g}H{high:.1f}"/>'
        for end in (low, high):
            yield f'<path class="axis" d="M{end:.1f} {height + 10:g}v8"/>'
        yield f'<path class="axis" d="M{middle:.1f} {height + 8:g}v12"/>'


def _run(height: float, rate: float, u: float, x: Axis) -> str:
    low, high = x_below(x, rate - u), x_below(x, rate + u)
    bar = f'<path class="point" d="M{low:.1f} {height:g}H{high:.1f}"/>' if u > 0.0 else ""
    return f'{bar}<circle class="point" cx="{x_below(x, rate):.1f}" cy="{height:g}" r="3.5"/>'
