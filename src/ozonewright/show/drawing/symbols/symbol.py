"""What a part looks like, and where gas goes in and out of it."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.show.drawing.pen import Point


@dataclass(frozen=True, slots=True)
class Symbol:
    """A part drawn with its inlet at (0, 0) and its outlet at (width, 0), y downwards.

    A symbol that is `upright` keeps its stand when the line turns downwards; then gas comes in
    along `above`, ends along `below`, and the axis of the line stands at `axis`. The others turn
    with the line.
    """

    width: float
    up: float
    down: float
    body: tuple[str, ...]
    inlet: tuple[Point, ...] = ()
    outlet: tuple[Point, ...] = ()
    marks: tuple[str, ...] = ()
    """Dimension lines and figures, left out where the line runs downwards: there the words
    beside the part have them."""
    upright: bool = False
    axis: float = 0.0
    above: tuple[Point, ...] = ()
    below: tuple[Point, ...] = ()
