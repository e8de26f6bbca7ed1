"""The discharge tube in section."""

from __future__ import annotations

from ozonewright.records.rig import Part
from ozonewright.show.drawing.pen import hatched, path, rect
from ozonewright.show.drawing.symbols.symbol import Symbol

WIDTH, HALF = 144.0, 32.0


def discharge_tube(part: Part) -> Symbol:
    """Cut walls, the inner electrode of an annulus, and the axis as a chain line."""
    inner = rect("ink", 22, -9, WIDTH - 44, 18) if part.value("gap") is not None else ""
    return Symbol(
        width=WIDTH,
        up=HALF + 2.0,
        down=HALF + 4.0,
        body=(
            rect("bore", 8, -HALF + 11, WIDTH - 16, 2 * HALF - 22),
            *hatched(8, -HALF, WIDTH - 16, 11),
            *hatched(8, HALF - 11, WIDTH - 16, 11),
            inner,
            path("chain", f"M-2 0H{WIDTH + 2:g}"),
        ),
        inlet=((0, 0), (9, 0)),
        outlet=((WIDTH - 9, 0), (WIDTH, 0)),
        marks=(
            path("fine", f"M8 {HALF + 14:g}H{WIDTH - 8:g}M8 {HALF + 9:g}v10M{WIDTH - 8:g} "
                         f"{HALF + 9:g}v10"),
        ),
    )  # fmt: skip
