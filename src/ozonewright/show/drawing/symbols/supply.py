"""Suppliers: pump, cylinder with regulator, concentrator."""

from __future__ import annotations

from ozonewright.records.rig import Part
from ozonewright.show.drawing.pen import circle, path, rect
from ozonewright.show.drawing.symbols.symbol import Symbol


def pump(part: Part) -> Symbol:
    """A diaphragm pump in section: chamber with two flaps, diaphragm, rod and crank."""
    return Symbol(
        width=72.0,
        up=32.0,
        down=50.0,
        body=(
            rect("ink", 4, -32, 64, 80),
            path("fine", "M4 -12H26M46 -12H68M28 -20v16M44 -20v16"),
            path("ink bare", "M4 12Q36 -8 68 12"),
            path("fine", "M36 3V28"),
            circle("ink", 36, 32, 7),
            circle("dot", 36, 28, 2),
        ),
        outlet=((68, 0), (72, 0)),
        upright=True,
        axis=36.0,
        below=((36, 48), (36, 58)),
    )


def cylinder(part: Part) -> Symbol:
    """A gas cylinder with its regulator."""
    return Symbol(
        width=74.0,
        up=32.0,
        down=116.0,
        body=(
            path("ink", "M6 114V38Q6 20 20 18V10H32V18Q46 20 46 38V114Z"),
            rect("ink", 18, -4, 16, 14),
            path("ink", "M20 -12h12v8h-12z"),
            circle("ink", 56, 0, 9),
            circle("ink", 56, -20, 8),
            path("fine", "M56 -9V-12M56 -20l4 -4M34 3H47"),
        ),
        outlet=((65, 0), (74, 0)),
        upright=True,
        axis=70.0,
        below=((65, 0), (70, 0), (70, 124)),
    )


def concentrator(part: Part) -> Symbol:
    """A cabinet with two sieve beds."""
    beds = []
    for left in (12, 50):
        beds.append(rect("ink", left, -22, 26, 58, 8))
        beds.append(path("hatch", "".join(
            f"M{left + 2} {y}h22" for y in range(-12, 32, 7))))  # fmt: skip
    return Symbol(
        width=88.0,
        up=34.0,
        down=48.0,
        body=(rect("ink", 0, -34, 88, 80), *beds),
        outlet=((88, 0), (88, 0)),
        upright=True,
        axis=44.0,
        below=((44, 46), (44, 56)),
    )
