"""The gas use as lines of text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.gas_use import AlternativeRow, FlowRow, GasUse
from ozonewright.show.numbers import percent, quantity, significant, span, with_u
from ozonewright.show.pages import Answer
from ozonewright.show.words.gas_use import money, typed_money
from ozonewright.show.wrap import foot, noted, numbered, unmarked, wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number, size

HOUR = (Kind.PRICE_PER_TIME, "1/hour", "per hour")
GRAM = (Kind.PRICE_PER_MASS, "1/gram", "per gram")
MMOL = (Kind.PRICE_PER_AMOUNT, "1/mmol", "per mmol")


def _hours(time: Estimate) -> str:
    shown = number(time.value, Kind.TIME, "h")
    return f"{with_u(shown, time.u / size(Kind.TIME, 'h'))} h"


def _plain_hours(time: float | None) -> str:
    if time is None:
        return "–"
    return f"{significant(number(time, Kind.TIME, 'h'), 3)} h"


def _price(value: object, unit: tuple[Kind, str, str], currency: str) -> str:
    """Return ``2.75 ± 0.16 EUR per hour``."""
    kind, name, words = unit
    if isinstance(value, Estimate):
        shown = with_u(number(value.value, kind, name), value.u / size(kind, name))
        return " ".join(part for part in (shown, currency, words) if part)
    assert isinstance(value, float)
    return money(number(value, kind, name), currency, words)


def answer_line(found: GasUse) -> str:
    """Return the one line that answers: how long, how much, what it costs."""
    assert isinstance(found.time, Estimate) and isinstance(found.usable, Estimate)  # noqa: PT018
    line = f"{_hours(found.time)} of {found.gas}"
    if found.per_gram is not None:
        return f"{line}; {_price(found.per_gram, GRAM, found.currency)} of ozone"
    if found.per_hour is not None:
        return f"{line}; {_price(found.per_hour, HOUR, found.currency)}"
    return line


def answer_parts(found: GasUse) -> Answer:
    """Return the answer of the page: how long, beside it what a gram costs."""
    assert isinstance(found.time, Estimate)
    hours = _hours(found.time).removesuffix(" h")
    price = ""
    if found.per_gram is not None:
        price = f"{_price(found.per_gram, GRAM, found.currency)} of ozone"
    elif found.per_hour is not None:
        price = _price(found.per_hour, HOUR, found.currency)
    low, high = found.time.interval
    between = span(low, high, Kind.TIME, "h", found.time.u)
    basis = f"Of {found.gas}, as long as it flows."
    if isinstance(found.clock, Estimate) and isinstance(found.discharge, Estimate):
        basis = (
            f"Of {found.gas}: {_hours(found.discharge)} with the discharge on, "
            f"{_hours(found.clock)} by the clock."
        )
    return Answer(hours, "h", price, basis, f"95 %: {between}.")


def details(found: GasUse) -> Iterator[tuple[str, str]]:
    """Yield the figures behind the answer, as words and value."""
    assert isinstance(found.content, Estimate) and isinstance(found.usable, Estimate)  # noqa: PT018
    content, usable = found.content, found.usable
    yield (
        "in the cylinder",
        (
            f"{quantity(content.value, Kind.NORMAL_VOLUME, 'Nm3', content.u)}, "
            f"{quantity(found.mass or 0.0, Kind.MASS, 'kg', figures=3)}"
        ),
    )
    yield "usable", quantity(usable.value, Kind.NORMAL_VOLUME, "Nm3", usable.u)
    if isinstance(found.flow, Estimate):
        yield "flow", quantity(found.flow.value, Kind.NORMAL_FLOW, "NL/min", found.flow.u)
    if isinstance(found.discharge, Estimate) and isinstance(found.clock, Estimate):
        yield "with the discharge on", _hours(found.discharge)
        yield "by the clock", _hours(found.clock)
        yield (
            "unused while it rests",
            quantity(found.wasted or 0.0, Kind.NORMAL_VOLUME, "Nm3", figures=3),
        )
    label = "cost"
    for value, unit in ((found.per_hour, HOUR), (found.per_gram, GRAM), (found.per_mmol, MMOL)):
        if value is not None:
            yield label, _price(value, unit, found.currency)
            label = ""
    label = "cost, hardware in it"
    for value, unit in (
        (found.hardware_per_hour, HOUR),
        (found.hardware_per_gram, GRAM),
        (found.hardware_per_mmol, MMOL),
    ):
        if value is not None:
            yield label, _price(value, unit, found.currency)
            label = ""
    if found.outlay is not None:
        deposit = ""
        if found.deposit is not None:
            deposit = f", {typed_money(found.deposit, found.currency)} of it comes back"
        yield "to lay out at first", typed_money(found.outlay, found.currency) + deposit


def alternative_line(row: AlternativeRow, currency: str) -> str:
    """Return what another way costs and when it pays."""
    parts = [f"{row.name}, {typed_money(row.price or 0.0, currency)}"]
    if row.per_hour is not None:
        parts.append(_price(row.per_hour, HOUR, currency))
    if row.per_gram is not None:
        parts.append(_price(row.per_gram, GRAM, currency))
    if row.break_even is not None:
        after = _plain_hours(row.break_even) + " of discharge"
        if row.break_even_mass is not None:
            after += f" ({quantity(row.break_even_mass, Kind.MASS, 'g', figures=3)} of ozone)"
        parts.append(f"pays after {after}")
    return "; ".join(parts)


FLOW_HEADS = ("flow, NL/min", "runs", "output, g/h", "of the best", "gas lasts", "per gram")


def flow_cells(row: FlowRow) -> tuple[str, ...]:
    """Return the cells of one flow, in the order of the heads."""
    rate = number(row.rate or 0.0, Kind.MASS_RATE, "g/h")
    u = (row.u_rate or 0.0) / size(Kind.MASS_RATE, "g/h")
    gram = number(row.per_gram, *GRAM[:2]) if row.per_gram is not None else None
    return (
        significant(number(row.flow or 0.0, Kind.NORMAL_FLOW, "NL/min"), 3),
        str(row.runs),
        with_u(rate, u),
        percent(row.share) if row.share is not None else "–",
        _plain_hours(row.time),
        significant(gram, 3) if gram is not None else "–",
    )


def gas_use_text(found: GasUse) -> str:
    """Return the answer for a terminal."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: GasUse) -> Iterator[str]:
    yield answer_line(found)
    yield from (f"  {words:<24} {value}" for words, value in details(found))
    if found.next:
        yield from ("", "Next")
    yield from numbered(found.next)
    yield from ("", "Working")
    yield from unmarked(found.working)
    if found.alternatives:
        yield from ("", "Instead")
    for row in found.alternatives:
        yield from wrapped(alternative_line(row, found.currency), "  ", "    ")
    if found.flows:
        yield from ("", "Outputs at several flows", _columns(FLOW_HEADS))
        yield from (_columns(flow_cells(row)) for row in found.flows)
    yield from noted(found.notes)
    yield from foot([name.replace("_", " ") for name in found.unknowns], found.sources)


def _columns(cells: tuple[str, ...]) -> str:
    widths = (14, 6, 17, 13, 11, 10)
    return "".join(f"{cell:>{width}}" for cell, width in zip(cells, widths, strict=True))
