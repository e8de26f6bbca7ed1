"""Fields of a part that are words: names, materials, feeds."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated

from ozonewright.documents.run import feed_of
from ozonewright.documents.section import Reader
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import Inconsistent, InputError, UnitError
from ozonewright.units import Kind


def _names(value: object) -> tuple[str, ...]:
    items = value if isinstance(value, list) else [value]
    if not items or not all(isinstance(item, str) and item.strip() for item in items):
        raise InputError(
            "a name in quotes is wanted, or a list of names",
            got=str(value),
            fix='Write "tee", or [ "tee", "pump 2" ].',
        )
    return tuple(str(item).strip() for item in items)


def _curve(value: object) -> tuple[tuple[Typed, Typed], ...]:
    fix = 'Write [ ["0 kPa", "3.0 L/min"], ["18 kPa", "0 L/min"] ].'
    pairs = value if isinstance(value, list) else []
    if len(pairs) < 2 or not all(isinstance(one, list) and len(one) == 2 for one in pairs):
        raise UnitError("a curve is a list of pressure and flow", got=str(value), fix=fix)
    read = [
        (
            typed(pressure, (Kind.PRESSURE_DIFFERENCE,)),
            typed(flow, (Kind.VOLUME_FLOW,), least=0.0),
        )
        for pressure, flow in pairs
    ]
    found = tuple(sorted(read, key=lambda pair: pair[0].value))
    for (low, more), (high, less) in pairwise(found):
        if high.value == low.value:
            raise Inconsistent(
                f"two flows at {high.text}",
                got=f"{more.text} and {less.text}",
                fix="Give each pressure one flow.",
            )
        if less.value > more.value:
            raise Inconsistent(
                f"the flow rises from {more.text} at {low.text} to {less.text} at {high.text}",
                got=str(value),
                fix="A pump delivers less against more pressure: exchange the two, or read the "
                "curve again.",
            )
    if found[0][1].value == found[-1][1].value:
        raise Inconsistent(
            "the flow does not fall with pressure",
            got=str(value),
            fix="Add the pressure at which the flow ends (hold the outlet shut and read it).",
        )
    return found


Names = Annotated[tuple[str, ...], Reader(_names)]
Curve = Annotated[tuple[tuple[Typed, Typed], ...], Reader(_curve)]
GasOf = Annotated[str | dict[str, Typed] | None, Reader(feed_of)]
