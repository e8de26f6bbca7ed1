"""Strokes of the workshop drawing: SVG elements whose look the style sheet gives."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape

Point = tuple[float, float]
SIZE = 12.5
"""Of the lettering. [px]"""
LETTER = 0.57 * SIZE
"""A letter's mean width in the widest usual typeface. [px]"""


def n(value: float) -> str:
    """Return a coordinate, short."""
    return f"{value:.1f}".removesuffix(".0")


def path(kind: str, d: str) -> str:
    """Return a path of one kind of stroke."""
    return f'<path class="{kind}" d="{d}"/>'


def line(kind: str, points: Sequence[Point]) -> str:
    """Return a line through points."""
    if len(points) < 2:
        return ""
    (x, y), *rest = points
    return path(kind, f"M{n(x)} {n(y)}" + "".join(f"L{n(a)} {n(b)}" for a, b in rest))


def rect(kind: str, x: float, y: float, width: float, height: float, round_: float = 0.0) -> str:
    """Return a rectangle."""
    corner = f' rx="{n(round_)}"' if round_ else ""
    return (
        f'<rect class="{kind}" x="{n(x)}" y="{n(y)}" width="{n(width)}" height="{n(height)}"'
        f"{corner}/>"
    )


def circle(kind: str, x: float, y: float, r: float) -> str:
    """Return a circle."""
    return f'<circle class="{kind}" cx="{n(x)}" cy="{n(y)}" r="{n(r)}"/>'


def text(x: float, y: float, words: str, anchor: str = "middle", kind: str = "") -> str:
    """Return lettering."""
    name = f' class="{kind}"' if kind else ""
    return f'<text x="{n(x)}" y="{n(y)}" text-anchor="{anchor}"{name}>{escape(words)}</text>'


def moved(x: float, y: float, strokes: Iterable[str], turned: bool = False) -> str:
    """Return strokes at another place, turned so that left to right runs downwards."""
    turn = " rotate(90)" if turned else ""
    return f'<g transform="translate({n(x)} {n(y)}){turn}">{"".join(strokes)}</g>'


def hatched(x: float, y: float, width: float, height: float, step: float = 7.0) -> Iterator[str]:
    """Yield a cut wall: its outline, and thin lines across it."""
    yield rect("ink", x, y, width, height)
    marks = []
    start = x - height
    while start < x + width:
        left, right = max(start, x), min(start + height, x + width)
        if right > left:
            marks.append(f"M{n(left)} {n(y + height - (left - start))}"
                         f"L{n(right)} {n(y + height - (right - start))}")  # fmt: skip
        start += step
    yield path("hatch", "".join(marks))


def dimension_up(x: float, y0: float, y1: float) -> str:
    """Return an upright dimension line with its ticks."""
    return path("fine", f"M{n(x)} {n(y0)}V{n(y1)}M{n(x - 4)} {n(y0)}h8M{n(x - 4)} {n(y1)}h8")


def arrow(x: float, y: float, down: bool = False) -> str:
    """Return the head of an arrow, its tip at the point."""
    if down:
        return path("head", f"M{n(x)} {n(y)}l-4.5 -9h9z")
    return path("head", f"M{n(x)} {n(y)}l-9 -4.5v9z")


def width_of(words: str) -> float:
    """Return about how wide lettering is."""
    return LETTER * len(words)


def wrapped(words: str, letters: int) -> list[str]:
    """Return words in lines of about so many letters, numbers kept with their units."""
    lines: list[str] = []
    for word in _kept(words):
        if lines and len(lines[-1]) + 1 + len(word) <= letters:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _kept(words: str) -> list[str]:
    """Split into words; a number takes the unit behind it along."""
    out: list[str] = []
    for word in words.split():
        if out and out[-1][-1:].isdigit() and not word[:1].isdigit() and len(word) <= 7:
            out[-1] += f" {word}"
        else:
            out.append(word)
    return out
