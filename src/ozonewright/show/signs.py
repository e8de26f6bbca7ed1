"""What the signs of the end point should show, and when, by the simulated run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.records.sign import Number, SignRow
from ozonewright.show.numbers import quantity, significant
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number


def sign_lines(signs: Sequence[SignRow]) -> Iterator[str]:
    """Yield one line for each sign: before, after, and at what on-time it turns."""
    for row in signs:
        yield {"off-gas": _off_gas, "tail bottle": _bottle, "blue": _blue}[row.sign](row)


def _off_gas(row: SignRow) -> str:
    before = _middle(row.gas_before, Kind.NORMAL_CONCENTRATION, "g/Nm3")
    after = between(row.gas_after, Kind.NORMAL_CONCENTRATION, "g/Nm3")
    levels = f"{before} g/Nm³ half-way, {after} ten minutes after the end"
    if not row.tells:
        return f"Off-gas: no sign; {levels}"
    at = between(row.at, Kind.TIME, "min")
    return f"Off-gas: half risen at {at} min, {_lead(row.after_done)}; {levels}"


def _bottle(row: SignRow) -> str:
    size = quantity(row.volume or 0.0, Kind.VOLUME, "mL", figures=2)
    times = f"{_seconds(row.colours_before)} half-way, {_seconds(row.colours_after)} after the end"
    use = "put a fresh one in at look-from" if row.tells else "no sign, ozone slips past all along"
    return f"Tail bottle: {size} with starch, fresh, colours in {times}; {use}"


def _blue(row: SignRow) -> str:
    told = between(row.dissolved, Kind.CONCENTRATION, "mmol/L")
    if not row.tells:
        return f"Blue: don't wait for it; {told} mmol/L dissolved after the end, about 1 is seen"
    at = between(row.at, Kind.TIME, "min")
    return f"Blue: from {at} min, {_lead(row.after_done)}; {told} mmol/L dissolved after it"


def between(value: Number, kind: Kind, unit: str) -> str:
    """Return a value with its interval in brackets, none of them below nothing."""
    if not isinstance(value, Estimate):
        return "–"
    ends = (value.value, *value.interval)
    middle, low, high = (_figure(max(number(end, kind, unit), 0.0)) for end in ends)
    return f"{middle} ({low} to {high})"


def _figure(value: float) -> str:
    return significant(value, 2) if value >= 0.01 else "under 0.01"


def _middle(value: Number, kind: Kind, unit: str) -> str:
    assert isinstance(value, Estimate)
    return _figure(max(number(value.value, kind, unit), 0.0))


def _lead(value: Number) -> str:
    assert isinstance(value, Estimate)
    minutes = number(value.value, Kind.TIME, "min")
    which = "before" if minutes < 0.0 else "after"
    return f"{significant(abs(minutes), 2)} min {which} 99 % converted"


def _seconds(value: Number) -> str:
    assert isinstance(value, Estimate)
    unit = "s" if value.value < 100.0 else "min"
    return f"{between(value, Kind.TIME, unit)} {unit}"
