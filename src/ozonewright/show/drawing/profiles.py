"""Pressure and concentration along the line, each step under its part."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from ozonewright.show.drawing.course import Course
from ozonewright.show.drawing.figures import concentration_text, is_bottleneck, kpa, loses_most
from ozonewright.show.drawing.layout import Item
from ozonewright.show.drawing.pen import Point, line, n, path, text, width_of
from ozonewright.show.drawing.readout import Readout

HIGH, LOWER = 92.0, 58.0
HEAD = 18.0
"""Room for figures above the highest line."""
APART = 24.0
WORTH_A_NUMBER = 0.03
"""Of the highest value: smaller changes get no figure of their own."""
BEYOND = 16.0
"""So far a figure of concentration may reach beyond its stretch. [px]"""
Scale = Callable[[float], float]
Flat = tuple[float, float, float]
"""A level stretch: from, to, value."""


@dataclass(frozen=True, slots=True)
class Step:
    """An item of the main line, and where it stands."""

    item: Item
    course: Course
    left: float
    right: float
    foot: float

    @property
    def middle(self) -> float:
        """Where its dotted line comes down."""
        return (self.left + self.right) / 2.0


def profiles(
    steps: Sequence[Step], readout: Readout, y: float, width: float
) -> tuple[list[str], float]:
    """Return both profiles below a height, and how high they are; none where nothing is known."""
    strokes: list[str] = []
    height = 0.0
    if readout.pressure and any(step.course.pressure is not None for step in steps):
        strokes += _pressure(steps, readout, y + HIGH, width)
        height += HIGH + APART
    if readout.concentration and any(step.course.behind is not None for step in steps):
        strokes += _concentration(steps, readout, y + height + LOWER, width)
        height += LOWER + APART
    return strokes, height


def _scale(base: float, high: float, most: float) -> Scale:
    return lambda value: base - (high - HEAD) * max(value, 0.0) / most


def _frame(base: float, width: float, unit: str) -> list[str]:
    return [path("hair", f"M0 {n(base)}H{n(width)}"), text(0.0, base - 6.0, unit, "start", "soft")]


def _pressure(steps: Sequence[Step], readout: Readout, base: float, width: float) -> list[str]:
    most = max(max(readout.pressure.values()), 1.0)
    at = _scale(base, HIGH, most)
    out = _frame(base, width, "kPa gauge")
    known = [step for step in steps if step.course.pressure is not None]
    supplied = [step.right for step in steps if not step.item.before]
    start = min(supplied, default=0.0)
    points: list[Point] = []
    flats: list[Flat] = []
    for place, step in enumerate(known):
        pressure, lost = step.course.pressure or 0.0, step.course.lost
        begin = known[place - 1].middle if place else start
        if not points:
            points.append((begin, at(pressure)))
        flats.append((begin, step.middle, pressure))
        points += [(step.middle, at(pressure)), (step.middle, at(pressure - lost))]
        out += _fall(step, readout, at, most)
    last = known[-1]
    end = (last.course.pressure or 0.0) - last.course.lost
    points.append((width, at(end)))
    flats.append((last.middle, width, end))
    out.append(line("stairs", points))
    out += _numbers(flats, at, WORTH_A_NUMBER * most, kpa)
    return [*out, *_bottleneck(known, readout, at, width)]


def _fall(step: Step, readout: Readout, at: Scale, most: float) -> Iterator[str]:
    """Yield the dotted line that ties a step to its part."""
    if step.course.lost > 0.01 * most:
        top = at(step.course.pressure or 0.0)
        if top > step.foot + 8.0:
            yield path("dots", f"M{n(step.middle)} {n(step.foot + 4.0)}V{n(top)}")


def _bottleneck(known: Sequence[Step], readout: Readout, at: Scale, width: float) -> Iterator[str]:
    """Yield the words at the step that costs most flow, and at the largest."""
    for step in known:
        narrow = is_bottleneck(step.item, readout)
        if narrow or loses_most(step.item, readout):
            pressure, lost = step.course.pressure or 0.0, step.course.lost
            low = at(pressure - lost)
            yield path("most", f"M{n(step.middle)} {n(at(pressure))}V{n(low)}")
            words = f"{'bottleneck' if narrow else 'largest loss'}, {kpa(lost)}"
            right = step.middle + 8.0 + width_of(words) < width
            x = step.middle + (8.0 if right else -8.0)
            top = at(pressure)
            y = top + 12.0 if low - top > 34.0 else min(top - 6.0, low - 20.0)
            yield text(x, y, words, "start" if right else "end", "accent")


def _numbers(
    flats: Sequence[Flat],
    at: Scale,
    worth: float,
    words_of: Callable[[float], str],
    beyond: float = 0.0,
) -> Iterator[str]:
    """Yield a figure on each level stretch that differs by `worth` from the last one told.

    It may reach so far `beyond` a stretch that is shorter than it, where nothing stands yet.
    """
    told, free = None, 0.0
    for place, (left, end, value) in enumerate(flats):
        words = words_of(value)
        half = width_of(words) / 2.0 + 2.0
        if told is not None and abs(told - value) < worth:
            continue
        x = min((left + end) / 2.0, left + 110.0)
        if end - left + 2.0 * beyond < 2.0 * half or x - half < free:
            if place < len(flats) - 1:
                continue
            x = max(end - half, free + half)
        yield text(x, at(value) - 5.0, words, kind="strong")
        told, free = value, x + half


def _concentration(steps: Sequence[Step], readout: Readout, base: float, width: float) -> list[str]:
    most = max(max(readout.concentration.values()), 1e-12)
    at = _scale(base, LOWER, most)
    out = _frame(base, width, "g/Nm³")
    points: list[Point] = []
    flats: list[Flat] = []
    begin = min((step.right for step in steps if not step.item.before), default=0.0)
    for step in steps:
        before, behind = step.course.before, step.course.behind
        if before is None:
            break
        if not points:
            points.append((begin, at(before)))
        inside = 8.0 if step.item.parts[-1].kind == "discharge tube" else 0.0
        enters = step.left + inside if behind is not None else step.middle
        if behind == before:
            continue
        flats.append((begin, enters, before))
        points.append((enters, at(before)))
        if behind is None:
            out.append(path("dots", f"M{n(enters)} {n(at(before))}V{n(base)}"))
            out.append(text(enters + 6.0, base - 6.0, "not measured", "start", "soft"))
            break
        begin = step.right - inside
        points.append((begin, at(behind)))
    else:
        points.append((width, at(steps[-1].course.behind or 0.0)))
        flats.append((begin, width, steps[-1].course.behind or 0.0))
    out.append(line("ozone", points))
    told = [flat for flat in flats if flat[2] > 0.0]
    return out + list(_numbers(told, at, 0.0, concentration_text, BEYOND))
