"""Parts that stand: rotameter, drying column, destruct bed."""

from __future__ import annotations

from ozonewright.records.rig import Part
from ozonewright.show.drawing.pen import Point, circle, path, rect
from ozonewright.show.drawing.symbols.symbol import Symbol


def _standing(width: float, half: float, body: tuple[str, ...]) -> Symbol:
    """Return a column that gas goes up through."""
    middle, foot, top = width / 2.0, half + 8.0, -half - 8.0
    inlet: tuple[Point, ...] = ((0, 0), (2, 0), (2, foot), (middle, foot), (middle, half))
    outlet: tuple[Point, ...] = (
        (middle, -half), (middle, top), (width - 2, top), (width - 2, 0), (width, 0),
    )  # fmt: skip
    return Symbol(
        width=width,
        up=half + 9.0,
        down=half + 9.0,
        body=body,
        inlet=inlet,
        outlet=outlet,
        upright=True,
        axis=2.0,
        above=((2, top - 8.0), (2, foot), (middle, foot), (middle, half)),
        below=((middle, -half), (middle, top), (width - 2, top), (width - 2, foot + 10.0),
               (2, foot + 10.0), (2, foot + 20.0)),
    )  # fmt: skip


def rotameter(part: Part) -> Symbol:
    """A tapered glass tube with its float."""
    return _standing(46.0, 32.0, (
        path("ink", "M19 32L14 -32H32L27 32Z"),
        path("ink", "M17.5 -2H28.5L25 6H21Z"),
        path("fine", "M34 -24h4M34 -14h4M34 -4h4M34 6h4M34 16h4"),
    ))  # fmt: skip


def desiccant_column(part: Part) -> Symbol:
    """A column of grains."""
    grains = [
        circle("fine", x, y, 3.2)
        for row, y in enumerate(range(-27, 30, 6))
        for x in ((17, 25, 33) if row % 2 else (21, 29))
    ]
    return _standing(50.0, 36.0, (
        rect("ink", 13, -36, 24, 72),
        path("fine", "M13 -31H37M13 32H37"),
        *grains,
    ))  # fmt: skip


def destruct(part: Part) -> Symbol:
    """A bed of catalyst or carbon."""
    lines = "".join(f"M13 {y}L37 {y - 14}" for y in range(-14, 33, 8))
    return _standing(50.0, 36.0, (
        rect("ink", 13, -36, 24, 72),
        path("fine", "M13 -31H37M13 32H37"),
        path("hatch", lines),
    ))  # fmt: skip
