"""The bottles of an absorber minute by minute: a table, and the slip as a figure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from ozonewright.questions.absorber import Absorber, CourseRow
from ozonewright.show.figures import Axis, frame, plot, x_at, y_at
from ozonewright.show.numbers import significant
from ozonewright.units import Kind, number

MOMENTS = 8
"""Lines of a table."""
FAINT = 0.001
"""Slip and dissolved ozone below which no figure is told. [mg/min, mg/L]"""
TITLE = "Slip against minutes of gas"
TABLE = "Minute by minute, from fresh liquid on"
DATA_HEAD = (
    "gas / min", "bottle", "reactant left / %", "dissolved / (mg/L)", "slip / (mg/min)",
    "slip 95 % low / (mg/min)", "slip 95 % high / (mg/min)",
)  # fmt: skip
FIGURES = 6


def heads(found: Absorber) -> tuple[str, ...]:
    """Return the heads of the table: a bottle is told by what it has left, or has dissolved."""
    names = tuple(f"{row.name}, {'left' if row.fills is None else 'mg/L'}" for row in found.bottles)
    return ("gas for", *names, "slip, mg/min")


def moments(found: Absorber) -> list[tuple[CourseRow, ...]]:
    """Return the rows of each moment, in flow order."""
    return [tuple(rows) for _, rows in groupby(found.course, key=lambda row: row.time)]


def lines(found: Absorber) -> Iterator[tuple[str, ...]]:
    """Yield the cells of some moments, evenly spread from the start to the end."""
    every = moments(found)
    step = max((len(every) - 1) // MOMENTS, 1)
    for rows in every[::step]:
        assert rows[0].time is not None
        time = number(rows[0].time, Kind.TIME, "min")
        yield (f"{significant(time, 3)} min", *(_holds(row) for row in rows), _slip(rows[-1]))


def data_rows(found: Absorber) -> Iterator[tuple[str, ...]]:
    """Yield every bottle at every moment, as numbers."""
    for row in found.course:
        low, middle, high = _ends(row)
        shown = (
            None if row.left is None else number(row.left, Kind.SHARE, "%"),
            number(row.dissolved or 0.0, Kind.MASS_CONCENTRATION, "mg/L"), middle, low, high,
        )  # fmt: skip
        time = number(row.time or 0.0, Kind.TIME, "min")
        told = ("" if one is None else significant(one, FIGURES) for one in shown)
        yield (significant(time, FIGURES), row.bottle, *told)


def _holds(row: CourseRow) -> str:
    if row.left is not None:
        return f"{100.0 * row.left:.0f} %"
    return _small(number(row.dissolved or 0.0, Kind.MASS_CONCENTRATION, "mg/L"))


def _slip(row: CourseRow) -> str:
    low, middle, high = (_small(value) for value in _ends(row))
    return f"{middle} ({low}–{high})"


def _small(value: float) -> str:
    return significant(value, 2) if value >= FAINT else f"< {FAINT}"


def _ends(row: CourseRow) -> tuple[float, float, float]:
    low, middle, high = (
        number(value or 0.0, Kind.MASS_RATE, "mg/min")
        for value in (row.slip_low, row.slip, row.slip_high)
    )
    return low, middle, high


def figure(found: Absorber) -> str:
    """Return the slip behind the last bottle with its band, and behind the first in grey."""
    every = moments(found)
    times = [number(rows[0].time or 0.0, Kind.TIME, "min") for rows in every]
    last = [_ends(rows[-1]) for rows in every]
    x = Axis("gas flowing, min", times[-1])
    y = Axis("slip, mg/min", max(max(high for _, _, high in last), FAINT))
    upper = _path(x, y, times, [high for _, _, high in last])
    lower = _path(x, y, times[::-1], [low for low, _, _ in last[::-1]])
    parts = [
        *frame(x, y),
        f'<path class="band" d="M{upper}L{lower}Z"/>',
        f'<path class="line" d="M{_path(x, y, times, [middle for _, middle, _ in last])}"/>',
    ]
    if len(found.bottles) > 1:
        first = [min(_ends(rows[0])[1], y.end) for rows in every]
        parts.append(f'<path class="chain" d="M{_path(x, y, times, first)}"/>')
    return plot(TITLE, parts)


def _path(x: Axis, y: Axis, times: Sequence[float], values: Sequence[float]) -> str:
    return "L".join(
        f"{x_at(x, time):.1f} {y_at(y, value):.1f}"
        for time, value in zip(times, values, strict=True)
    )
