"""Bottles: with liquid and a dip tube, or empty against suck-back."""

from __future__ import annotations

from ozonewright.records.rig import Part
from ozonewright.show.drawing.pen import Point, circle, dimension_up, hatched, path, rect
from ozonewright.show.drawing.symbols.symbol import Symbol

WIDTH, DIP, RISE, BOTTOM, LEVEL = 74.0, 31.0, 47.0, 126.0, 68.0
DEEPEST, SHALLOWEST = 48.0, 14.0
FULL_DEPTH = 0.20
"""Depth drawn as deep as the bottle allows. [m]"""
OUTLINE = f"M26 20V34Q10 40 10 54V{BOTTOM:g}H68V54Q68 40 52 34V20"


def safety_bottle(part: Part) -> Symbol:
    """An empty bottle: both tubes end high."""
    return _bottle((path("ink", OUTLINE),), DIP, 44.0, ())


def bottle(part: Part, sparger: Part | None = None) -> Symbol:
    """A bottle with liquid; gas comes out of a tube, a stone or a frit under its surface."""
    depth = part.value("depth")
    under = DEEPEST if depth is None else min(max(depth / FULL_DEPTH, 0.0), 1.0) * DEEPEST
    tip = LEVEL + max(under, SHALLOWEST)
    liquid = path("liquid", f"M11 {LEVEL:g}H67V{BOTTOM - 1:g}H11Z")
    surface = path("fine", f"M10 {LEVEL:g}H68")
    form = sparger.words.get("form", "") if sparger else ""
    stone = sparger is not None and form != "open tube"
    ends = _end(tip, form) if stone else ()
    bubbles = tuple(
        circle("bubble", x, tip - rise, r)
        for x, rise, r in ((37, 3, 2.2), (24, 12, 2.6), (40, 18, 3.0), (26, 27, 2.2), (44, 33, 2.6))
        if tip - rise - r > LEVEL + 2
    )
    marks = () if depth is None else (dimension_up(74.0, LEVEL, tip),)
    body = (path("ink", OUTLINE), liquid, surface, *bubbles)
    return _bottle(body, DIP, tip, marks, ends)


def _end(tip: float, form: str) -> tuple[str, ...]:
    if form == "frit":
        return (path("ink", f"M{DIP - 9:g} {tip:g}h18l-4 -7h-10z"),
                path("hatch", f"M{DIP - 6:g} {tip - 2:g}h2m2 0h2m2 0h2m2 0h2"))  # fmt: skip
    return (rect("ink", DIP - 7, tip - 9, 14, 13, 4),
            path("hatch", f"M{DIP - 4:g} {tip - 5:g}h2m2 0h2m-4 4h2m2 0h2"))  # fmt: skip


def _bottle(
    body: tuple[str, ...],
    dip: float,
    tip: float,
    marks: tuple[str, ...],
    ends: tuple[str, ...] = (),
) -> Symbol:
    inlet: tuple[Point, ...] = ((0, 0), (dip, 0), (dip, tip))
    outlet: tuple[Point, ...] = ((RISE, 42), (RISE, 0), (WIDTH, 0))
    stopper = tuple(hatched(27, 16, 24, 10, 5.0))
    tubes = (
        path("gas", f"M{dip:g} 0V{tip:g}"),
        path("gas", f"M{RISE:g} 42V0"),
    )
    return Symbol(
        width=WIDTH,
        up=8.0,
        down=BOTTOM,
        body=(*body, *stopper, *tubes, *ends),
        inlet=inlet[:2],
        outlet=outlet[1:],
        marks=marks,
        upright=True,
        axis=dip,
        above=((dip, -8), (dip, 0)),
        below=((RISE, 0), (RISE, -1), (WIDTH + 4, -1), (WIDTH + 4, BOTTOM + 10), (dip, BOTTOM + 10),
               (dip, BOTTOM + 20)),
    )  # fmt: skip
