"""Parts that gas runs straight through: valves, tubes, connectors, tee, leak, vent, cap."""

from __future__ import annotations

from ozonewright.records.rig import Part
from ozonewright.show.drawing.pen import circle, path, rect
from ozonewright.show.drawing.symbols.symbol import Symbol


def needle_valve(part: Part) -> Symbol:
    """Two cones against each other, with a stem."""
    return Symbol(
        width=34.0,
        up=22.0,
        down=13.0,
        body=(path("ink", "M4 -11L30 11V-11L4 11Z"), path("ink bare", "M17 0V-18M10 -18H24")),
        inlet=((0, 0), (4, 0)),
        outlet=((30, 0), (34, 0)),
    )


def flow_controller(part: Part) -> Symbol:
    """A needle valve in a housing."""
    return Symbol(
        width=56.0,
        up=18.0,
        down=18.0,
        body=(
            rect("ink", 4, -17, 48, 34),
            path("ink bare", "M18 -8L38 8V-8L18 8Z"),
            path("fine", "M4 0H18M38 0H52"),
        ),
        inlet=((0, 0), (4, 0)),
        outlet=((52, 0), (56, 0)),
    )


def tube(part: Part) -> Symbol:
    """A length of tube with the break that shortens it."""
    return Symbol(
        width=58.0,
        up=8.0,
        down=9.0,
        body=(
            path("bore", "M0 -4H24L27 4H0ZM34 -4H58V4H37Z"),
            path("ink bare", "M0 -4.5H23.5M0 4.5H27M58 -4.5H34M58 4.5H37.5"),
            path("fine", "M21 -11L25 -3L25 3L29 11M32 -11L36 -3L36 3L40 11"),
        ),
    )


def connector(part: Part) -> Symbol:
    """A piece that narrows the bore."""
    return Symbol(
        width=30.0,
        up=10.0,
        down=10.0,
        body=(
            path("ink", "M4 -9H26V9H4Z"),
            path("fine", "M4 -5L11 -2.5H19L26 -5M4 5L11 2.5H19L26 5"),
        ),
        inlet=((0, 0), (4, 0)),
        outlet=((26, 0), (30, 0)),
    )


def tee(part: Part) -> Symbol:
    """A joint of three or more lines."""
    return Symbol(
        width=18.0, up=8.0, down=8.0, body=(circle("dot", 9, 0, 4.5),),
        inlet=((0, 0), (9, 0)), outlet=((9, 0), (18, 0)),
    )  # fmt: skip


def check_valve(part: Part) -> Symbol:
    """A cone and its seat; the cone points the way gas can go."""
    reversed_ = part.words.get("direction") == "reversed"
    cone = "M31 -12L9 0L31 12ZM8 -12V12" if reversed_ else "M5 -12L27 0L5 12ZM28 -12V12"
    return Symbol(
        width=36.0,
        up=13.0,
        down=13.0,
        body=(path("ink wrong" if reversed_ else "ink", cone),),
        inlet=((0, 0), (8 if reversed_ else 5, 0)),
        outlet=((31 if reversed_ else 28, 0), (36, 0)),
    )


def leak(part: Part) -> Symbol:
    """A hole in the wall, gas going out of it."""
    return Symbol(
        width=34.0,
        up=26.0,
        down=8.0,
        body=(
            path("ink bare", "M4 -5H14M20 -5H30M4 5H30"),
            path("gas", "M17 -4V-16"),
            path("head", "M17 -24l-4.5 9h9z"),
        ),
        inlet=((0, 0), (17, 0)),
        outlet=((17, 0), (34, 0)),
    )


def vent(part: Part) -> Symbol:
    """An open end."""
    return Symbol(
        width=44.0,
        up=10.0,
        down=10.0,
        body=(path("head", "M40 0l-9 -4.5v9z"),),
        inlet=((0, 0), (32, 0)),
    )


def cap(part: Part) -> Symbol:
    """A closed end."""
    return Symbol(
        width=20.0,
        up=10.0,
        down=10.0,
        body=(path("ink bare", "M14 -9V9"),),
        inlet=((0, 0), (14, 0)),
    )


def sparger(part: Part) -> Symbol:
    """A stone or frit by itself."""
    return Symbol(
        width=44.0,
        up=9.0,
        down=9.0,
        body=(
            rect("ink", 10, -8, 24, 16, 6),
            path("hatch", "M15 -4h2M21 -4h2M27 -4h2M18 1h2M24 1h2M15 5h2M21 5h2M27 5h2"),
        ),
        inlet=((0, 0), (10, 0)),
        outlet=((34, 0), (44, 0)),
    )
