"""One declared field of an answer as text."""

from __future__ import annotations

from ozonewright.results import Quantity, Row, declared
from ozonewright.show.numbers import quantity
from ozonewright.uncertain import Estimate


def told(row: Row, name: str, *, with_u: bool = False, figures: int = 3) -> str | None:
    """Return a field in its declared unit, or None when it can't be known."""
    declaration = dict(declared(row))[name]
    value = getattr(row, name)
    assert isinstance(declaration, Quantity)
    if value is None:
        return None
    middle, u = (value.value, value.u) if isinstance(value, Estimate) else (value, None)
    return quantity(middle, declaration.kind, declaration.unit, u if with_u else None, figures)
