"""One drawn symbol for each kind of part; a new kind is one function and one line here."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.records.rig import Part
from ozonewright.show.drawing.symbols import bottles, columns, inline, supply
from ozonewright.show.drawing.symbols.discharge import discharge_tube
from ozonewright.show.drawing.symbols.symbol import Symbol

SYMBOLS: dict[str, Callable[[Part], Symbol]] = {
    "pump": supply.pump,
    "cylinder": supply.cylinder,
    "concentrator": supply.concentrator,
    "needle valve": inline.needle_valve,
    "flow controller": inline.flow_controller,
    "rotameter": columns.rotameter,
    "tube": inline.tube,
    "connector": inline.connector,
    "tee": inline.tee,
    "check valve": inline.check_valve,
    "desiccant column": columns.desiccant_column,
    "discharge tube": discharge_tube,
    "safety bottle": bottles.safety_bottle,
    "sparger": inline.sparger,
    "bottle": bottles.bottle,
    "tail bottle": bottles.bottle,
    "destruct": columns.destruct,
    "leak": inline.leak,
    "vent": inline.vent,
    "cap": inline.cap,
}

__all__ = ["SYMBOLS", "Symbol", "symbol_of"]


def symbol_of(part: Part, sparger: Part | None = None) -> Symbol:
    """Return how a part is drawn; a bottle takes its sparger in."""
    if part.kind in ("bottle", "tail bottle"):
        return bottles.bottle(part, sparger)
    return SYMBOLS[part.kind](part)
