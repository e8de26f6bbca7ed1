"""Drift in pictures: collected mass with line, band and causes; titres of a further run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor

from ozonewright.questions.drift import BandRow, CurveRow, Drift, NextRow
from ozonewright.show.figures import (
    BOTTOM,
    HEIGHT,
    RIGHT,
    TOP,
    WIDTH,
    Axis,
    Point,
    drawn_point,
    frame,
    plot,
    scale_below,
    words_at,
    x_at,
    x_below,
)
from ozonewright.show.words.drift import cause_short, cause_words
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number, size

SERIES_TITLE = "Ozone collected against on-time, with the line and its band"
LEFT_OVER_TITLE = "What is left of each run when the slope is taken off"
TITRES_TITLE = "Titre to expect of the next run, by cause"
TOLD = 3
"""Causes drawn besides the line, the likeliest of different told-alike groups."""
ROW = 36.0
"""Height of a cause in the figure of titres."""
SPREAD = 2.0
"""Standard deviations to each side of an expected titre."""
APART = 15.0
HEADROOM = 0.25
"""Part of the range that is left free above the curves, for their names."""
NAME = 52
ROOM = 1.08

Dots = Sequence[tuple[float, float]]


def series_figure(found: Drift) -> str:
    """Return collected mass with line and band, or nothing without runs."""
    points = list(_points(found))
    if not points:
        return ""
    band = found.fit.band if found.fit is not None else ()
    x = Axis("on-time, min", ROOM * max(point.x for point in points))
    heights = [point.y + point.u_y for point in points]
    heights += [_mg(row.middle) for row in band if _min(row.on_time) <= x.end]
    y = Axis("ozone, mg", max(heights))
    parts = [*frame(x, y), *_band(band, x, y, 0.0)]
    placed: list[tuple[float, float]] = []
    for point in points:
        parts += drawn_point(point, x, y, placed)
    return plot(SERIES_TITLE, parts)


def left_over_figure(found: Drift) -> str:
    """Return what each run has more than the slope gives it, with the causes, or nothing.

    A surplus is level there, a lag lies below nought, and a generator that settles climbs.
    """
    fit = found.fit
    if fit is None or not isinstance(fit.slope, Estimate):
        return ""
    slope = number(fit.slope.value, Kind.MASS_RATE, "mg/min")
    points = [replace(one, y=one.y - slope * one.x) for one in _points(found) if not one.faint]
    x = Axis("on-time, min", ROOM * max(point.x for point in points))
    curves = list(_curves(found))
    reach = [point.y + side * point.u_y for point in points for side in (-1.0, 1.0)]
    for rows in curves:
        reach += [b for a, b in _less(rows, slope) if a <= x.end]
    least, most = min(0.0, *reach), max(0.1, *reach)
    y = Ladder("mg more than the slope", least, most + HEADROOM * (most - least))
    parts = [*_ladder(x, y), *_band(fit.band, x, y, slope)]
    for rows in curves:
        parts.append(_path(_less(rows, slope), "chain", x, y))
    parts += _names(curves, slope, x, y)
    for point in points:
        parts += _dot(point, x, y)
    return plot(LEFT_OVER_TITLE, parts)


@dataclass(frozen=True, slots=True)
class Ladder:
    """An axis upward that may begin below nought."""

    words: str
    least: float
    most: float

    @property
    def step(self) -> float:
        """The distance of the ticks."""
        return Axis("", self.most - self.least).step

    @property
    def foot(self) -> float:
        """The lowest tick."""
        return floor(self.least / self.step + 1e-9) * self.step

    @property
    def end(self) -> float:
        """The highest tick."""
        return ceil(self.most / self.step - 1e-9) * self.step


def _height(y: Axis | Ladder, value: float) -> float:
    foot = y.foot if isinstance(y, Ladder) else 0.0
    return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * (value - foot) / (y.end - foot)


def _ladder(x: Axis, y: Ladder) -> Iterator[str]:
    low, left = HEIGHT - BOTTOM, x_at(x, 0.0)
    for value in x.ticks():
        yield f'<path class="axis" d="M{x_at(x, value):.1f} {low:.1f}v4"/>'
        yield words_at(x_at(x, value), low + 17.0, f"{value:g}", kind="faint")
    for place in range(round((y.end - y.foot) / y.step) + 1):
        value = y.foot + place * y.step
        at = _height(y, value)
        kind = "axis" if abs(value) < y.step / 2.0 else "grid"
        yield f'<path class="{kind}" d="M{left:.1f} {at:.1f}H{WIDTH - RIGHT:g}"/>'
        label = f"{value:g}".replace("-", "\u2212")
        yield words_at(left - 7.0, at + 4.0, label, "end", "faint")
    yield f'<path class="axis" d="M{left:.1f} {TOP:g}V{low:.1f}"/>'
    yield words_at(left - 7.0, 12.0, y.words, "start", "faint")
    yield words_at(WIDTH - RIGHT, HEIGHT - 6.0, x.words, "end", "faint")


def causes_drawn(found: Drift) -> tuple[str, ...]:
    """Return the causes that are drawn as curves, in words."""
    return tuple(cause_words(rows[0].cause) for rows in _curves(found))


def _points(found: Drift) -> Iterator[Point]:
    for row in found.points:
        if row.on_time is not None and row.ozone is not None:
            u = (row.u_ozone or 0.0) / size(Kind.MASS, "mg")
            off = row.discharge == "off"
            yield Point(_min(row.on_time), _mg(row.ozone), u, row.label, faint=off)


def _mg(mass: float | None) -> float:
    return number(mass or 0.0, Kind.MASS, "mg")


def _min(time: float | None) -> float:
    return number(time or 0.0, Kind.TIME, "min")


def _curves(found: Drift) -> Iterator[list[CurveRow]]:
    """Yield the curve of the likeliest cause of each of a few told-alike groups."""
    groups: set[str] = set()
    for cause in found.causes:
        rows = [row for row in found.curves if row.cause == cause.cause]
        if rows and cause.group not in groups and len(groups) < TOLD:
            groups.add(cause.group)
            yield rows


def _less(rows: Sequence[CurveRow], slope: float) -> list[tuple[float, float]]:
    return [(_min(row.on_time), _mg(row.middle) - slope * _min(row.on_time)) for row in rows]


def _drawn(dots: Dots, x: Axis, y: Axis | Ladder) -> str:
    return "L".join(f"{x_at(x, a):.1f} {_height(y, b):.1f}" for a, b in dots)


def _path(dots: Dots, kind: str, x: Axis, y: Axis | Ladder) -> str:
    shown = [(a, b) for a, b in dots if a <= x.end]
    return f'<path class="{kind}" d="M{_drawn(shown, x, y)}"/>' if shown else ""


def _band(band: Sequence[BandRow], x: Axis, y: Axis | Ladder, slope: float) -> Iterator[str]:
    """Yield the band of the line, the slope taken off where one is given, and the line."""
    rows = [row for row in band if _min(row.on_time) <= x.end]
    if not rows:
        return
    foot = y.foot if isinstance(y, Ladder) else 0.0

    def at(row: BandRow, mass: float | None) -> tuple[float, float]:
        time = _min(row.on_time)
        return time, min(max(_mg(mass) - slope * time, foot), y.end)

    there = [at(row, row.high) for row in rows]
    back = [at(row, row.low) for row in reversed(rows)]
    yield f'<path class="band" d="M{_drawn([*there, *back], x, y)}Z"/>'
    yield _path([at(row, row.middle) for row in rows], "line", x, y)


def _names(curves: Sequence[Sequence[CurveRow]], slope: float, x: Axis, y: Ladder) -> Iterator[str]:
    """Yield the name of each curve at its beginning, where causes differ most."""
    at = HEIGHT - BOTTOM - 4.0
    starts = sorted(
        ((_less(rows, slope)[0][1], rows[0]) for rows in curves if rows), key=lambda one: one[0]
    )
    for height, row in starts:
        at = min(at, _height(y, height) - 14.0)
        yield words_at(
            x_at(x, _min(row.on_time)) + 2.0, max(at, TOP + 10.0), cause_short(row.cause), "start"
        )
        at -= APART


def _dot(point: Point, x: Axis, y: Ladder) -> Iterator[str]:
    across, up = x_at(x, point.x), _height(y, point.y)
    if point.u_y > 0.0:
        top, foot = _height(y, point.y + point.u_y), _height(y, point.y - point.u_y)
        yield f'<path class="point" d="M{across:.1f} {top:.1f}V{foot:.1f}"/>'
    yield f'<circle class="point" cx="{across:.1f}" cy="{up:.1f}" r="3.5"/>'


def titres_figure(row: NextRow, titrant: str) -> str:
    """Return the figure of one further run, or nothing where no titre is foretold."""
    if not row.titre:
        return ""
    names = sorted(row.titre, key=lambda name: -row.titre[name])
    ends = [_ml(row.titre[name]) + SPREAD * _ml(row.u_titre[name]) for name in names]
    of = " of the guard bottle" if row.change == "guard" else ""
    x = Axis(f"titre{of}, mL of {titrant}", max(*ends, _ml(max(row.titre.values())), 0.1))
    foot = ROW * len(names) + 8.0
    height = foot + BOTTOM
    parts = [*scale_below(x, foot, height, grid=4.0)]
    for place, name in enumerate(names):
        parts += _expected(name, row, ROW * place + 26.0, x)
    return plot(TITRES_TITLE, parts, height)


def _ml(volume: float) -> float:
    return number(volume, Kind.VOLUME, "mL")


def _expected(name: str, row: NextRow, height: float, x: Axis) -> Iterator[str]:
    titre, u = _ml(row.titre[name]), _ml(row.u_titre[name])
    low, high = x_below(x, titre - SPREAD * u), x_below(x, titre + SPREAD * u)
    words = cause_words(name)
    short = words if len(words) <= NAME else f"{words[: NAME - 1]}…"
    yield words_at(x_below(x, 0.0), height - 9.0, short, "start")
    yield f'<path class="point" d="M{low:.1f} {height:.1f}H{high:.1f}"/>'
    yield f'<circle class="point" cx="{x_below(x, titre):.1f}" cy="{height:.1f}" r="3.5"/>'
