"""The runs of two settings on one scale, each setting on its own line, with its mean."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.comparison import Comparison
from ozonewright.show.figures import LEFT, RIGHT, WIDTH, Axis, plot, words_at
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
    parts = [*_scale(x)]
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


def _across(x: Axis, value: float) -> float:
    left = LEFT / 3.0
    return left + (WIDTH - left - RIGHT) * min(max(value, 0.0), x.end) / x.end


def _scale(x: Axis) -> Iterator[str]:
    yield f'<path class="axis" d="M{_across(x, 0.0):.1f} {FOOT:g}H{_across(x, x.end):.1f}"/>'
    for value in x.ticks():
        at = _across(x, value)
        yield f'<path class="axis" d="M{at:.1f} {FOOT:g}v4"/>'
        yield words_at(at, FOOT + 17.0, f"{value:g}", "middle", "faint")
    yield words_at(WIDTH - RIGHT, HEIGHT - 6.0, x.words, "end", "faint")


def _row(
    height: float, name: str, rate: Estimate | None, found: Comparison, x: Axis
) -> Iterator[str]:
    short = name if len(name) <= NAME else f"{name[: NAME - 1]}…"
    yield words_at(_across(x, 0.0), height - 14.0, short, "start")
    yield f'<path class="grid" d="M{_across(x, 0.0):.1f} {height:g}H{_across(x, x.end):.1f}"/>'
    for row in found.runs:
        if row.setting == name and row.rate is not None:
            yield _run(height, _shown(row.rate), _spread(row.u_rate or 0.0), x)
    if rate is not None:
        low, high = (_across(x, _shown(end)) for end in rate.interval)
        middle = _across(x, _shown(rate.value))
        yield f'<path class="axis" d="M{low:.1f} {height + 14:g}H{high:.1f}"/>'
        for end in (low, high):
            yield f'<path class="axis" d="M{end:.1f} {height + 10:g}v8"/>'
        yield f'<path class="axis" d="M{middle:.1f} {height + 8:g}v12"/>'


def _run(height: float, rate: float, u: float, x: Axis) -> str:
    low, high = _across(x, rate - u), _across(x, rate + u)
    bar = f'<path class="point" d="M{low:.1f} {height:g}H{high:.1f}"/>' if u > 0.0 else ""
    return f'{bar}<circle class="point" cx="{_across(x, rate):.1f}" cy="{height:g}" r="3.5"/>'
