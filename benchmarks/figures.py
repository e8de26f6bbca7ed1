"""Figures as SVG beside bare matplotlib drawing the same picture in the same process.

The peer draws the same axes with their ticks, grid and words, the same points with their ±, lines,
bands and labels, and saves SVG to memory. Its letters stay letters (`svg.fonttype`), which is the
quicker of its two ways and what ours does. Results are worked out before; only drawing is timed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from io import BytesIO
from statistics import median
from time import process_time

import matplotlib as mpl
from figure import Figure
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure as Sheet

from ozonewright.bench.absorber import uptake
from ozonewright.bench.drift import drift_of_points
from ozonewright.bench.duty import timer
from ozonewright.bench.output import outputs
from ozonewright.show.absorber_figures import uptake_figures
from ozonewright.show.drift_figures import series_figure
from ozonewright.show.duty_figure import warming_figure
from ozonewright.show.ink import PAPER, picture
from ozonewright.show.setting_figure import collected_against_time
from ozonewright.show.sheet.absorber import absorber_figures
from ozonewright.show.sheet.duty import duty_figures
from ozonewright.show.sheet.figures import drift_series
from ozonewright.show.sheet.setting_figure import setting_figure

ROUNDS = 60
MOST = 1.5
RIG = {
    "rig": {"label": "bench", "ambient": {"temperature": "20 °C", "pressure": "101.3 kPa"}},
    "part": [
        {"name": "stone", "kind": "sparger", "form": "stone", "pore": "40 µm"},
        {"name": "flask", "kind": "bottle", "liquid": "water", "volume": "200 mL",
         "depth": "15 cm", "bore": "40 mm"},
    ],
}  # fmt: skip
POINTS = ("2 min: 0.92 g/h", "4 min: 0.81 g/h", "6 min: 0.78 g/h", "8 min: 0.76 g/h")
TIMER = {"on": "6 min", "off": "9 min", "time_constant": "4.6 min ± 0.5 min", "rise": "60 K ± 3 K",
         "ambient": "25 °C", "limit": "70 °C"}  # fmt: skip

Rows = Sequence[tuple[float, float]]


@dataclass
class Same:
    """The picture as the peer is told it, from the numbers behind ours."""

    x: str
    y: str
    points: list[tuple[float, float, float, str]] = field(default_factory=list)
    lines: list[Rows] = field(default_factory=list)
    band: tuple[Rows, Rows] | None = None
    level: float | None = None

    def svg(self) -> bytes:
        """Draw it, bare: no pyplot, no layout engine."""
        sheet = Sheet(figsize=(3.6, 2.5))
        canvas = FigureCanvasSVG(sheet)
        axes = sheet.add_axes((0.12, 0.16, 0.84, 0.74))
        axes.set_xlabel(self.x)
        axes.set_ylabel(self.y)
        axes.grid(visible=True, axis="y", color=PAPER["hair"], linewidth=0.5)
        for rows in self.lines:
            axes.plot(*zip(*rows, strict=True), color=PAPER["gas"])
        if self.band is not None:
            low, high = self.band
            axes.fill_between([x for x, _ in low], [y for _, y in low], [y for _, y in high],
                              color=PAPER["gas"], alpha=0.16)  # fmt: skip
        if self.points:
            xs, ys, spreads, _ = zip(*self.points, strict=True)
            axes.errorbar(xs, ys, yerr=spreads, fmt="o", color=PAPER["gas"])
            for x, y, _, label in self.points:
                axes.annotate(label, (x, y), (4, -10), textcoords="offset points")
        if self.level is not None:
            axes.axhline(self.level, color=PAPER["accent"], linestyle="--")
        out = BytesIO()
        canvas.print_svg(out)
        return out.getvalue()


def seconds(draw: Callable[[], object]) -> float:
    """Return the median time of the processor that drawing takes."""
    draw()
    times = []
    for _ in range(ROUNDS):
        start = process_time()
        draw()
        times.append(process_time() - start)
    return median(times)


def beside(what: str, ours: Callable[[], str], same: Same) -> list[Figure]:
    """Return our time over the peer's, and both."""
    mine, its = seconds(lambda: picture(ours())), seconds(same.svg)
    return [
        Figure(f"{what}, over matplotlib", mine / its, at_most=MOST),
        Figure(f"{what}, ours", 1000.0 * mine, "ms"),
        Figure(f"{what}, matplotlib", 1000.0 * its, "ms"),
    ]


def numbers(rows: Sequence[Sequence[str]], *columns: int) -> list[tuple[float, ...]]:
    """Return columns of the numbers behind a figure; empty cells count as nought."""
    return [tuple(float(row[at] or 0.0) for at in columns) for row in rows]


def _setting() -> list[Figure]:
    runs = outputs(
        [
            {"run": {"label": f"C{n}", "setting": "s", "on_time": f"{2 * n} min ± 1.5 s",
                     "rate": f"0.6{n} g/h"}}
            for n in range(1, 6)
        ]
    )  # fmt: skip
    figure = setting_figure("s", runs)
    assert figure is not None
    assert figure.data is not None
    names = [row[0] for row in figure.data.rows]
    same = Same("on-time, min", "ozone, mg", points=[
        (x, y, u, name) for (x, y, u), name in zip(numbers(figure.data.rows, 2, 3, 4), names,
                                                   strict=True)
    ])  # fmt: skip
    return beside("runs of a setting", lambda: collected_against_time(runs), same)


def _drift() -> list[Figure]:
    found = drift_of_points(POINTS)
    figure = drift_series(found)
    assert figure is not None
    assert figure.data is not None
    line = [row for row in figure.data.rows if row[0] == "line"]
    runs = [row for row in figure.data.rows if row[0] != "line"]
    middle, low, high = (
        [(x, y) for x, y in numbers(line, 1, column)] for column in (2, 3, 4)
    )  # fmt: skip
    points = [
        (x, y, u, row[0]) for (x, y, u), row in zip(numbers(runs, 1, 2, 3), runs, strict=True)
    ]
    same = Same("on-time, min", "ozone, mg", points, [middle], (low, high))
    return beside("series of drift with its band", lambda: series_figure(found), same)


def _absorber() -> list[Figure]:
    found = uptake(RIG, {"output": "0.6 g/h", "flow": "0.8 NL/min"})
    figure = next(absorber_figures(found))
    assert figure.data is not None
    rows = [(x, y) for x, y in numbers(figure.data.rows, 0, 1)]
    same = Same("depth, cm", "taken up, %", lines=[rows])
    return beside("uptake against depth", lambda: next(uptake_figures(found))[1], same)


def _duty() -> list[Figure]:
    found = timer(TIMER)
    figure = next(duty_figures(found))
    assert figure.data is not None
    rows = [(x, 0.6 * y) for x, y in numbers(figure.data.rows, 0, 1)]
    same = Same("time since the start, min", "over the ambient, K", lines=[rows], level=45.0)
    return beside(f"warmth on a timer, {len(rows)} points", lambda: warming_figure(found), same)


def main() -> list[Figure]:
    """Return the figures of issue 10 that concern drawing."""
    mpl.rcParams["svg.fonttype"] = "none"
    return [*_setting(), *_drift(), *_absorber(), *_duty()]
