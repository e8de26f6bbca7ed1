"""The absorber as lines of text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.absorber import Absorber, BottleRow, WhatIf
from ozonewright.show.absorber_course import TABLE, heads
from ozonewright.show.absorber_course import lines as course_lines
from ozonewright.show.numbers import percent, power_of_ten, quantity, significant, with_u
from ozonewright.show.pages import Answer
from ozonewright.show.words import sentence
from ozonewright.show.words.absorber import CHANGES, HOLDS
from ozonewright.show.wrap import wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number, size

Number = Estimate | float | None
ALIKE = 1e-3
"""Changes of less than a tenth of a point are none."""
FAINT = 0.001
"""Slip below which no figure is told. [mg/min]"""


def band(value: Number, kind: Kind, unit: str) -> str:
    """Return a best estimate with its 95 % interval to two figures: ``62 (41 to 80)``."""
    assert isinstance(value, Estimate)
    low, high = (significant(number(end, kind, unit), 2) for end in value.interval)
    return f"{significant(number(value.value, kind, unit), 2)} ({low} to {high})"


def share_band(value: Number) -> str:
    """Return a share with its interval, never rounded to all: ``97.1 % (91 to 99.8)``."""
    assert isinstance(value, Estimate)
    low, high = (_share(end) for end in value.interval)
    return f"{_share(value.value)} % ({low} to {high})"


def _share(share: float) -> str:
    """Return per cent with as many figures as the part missing to all needs."""
    missing = 1.0 - share
    if missing < 1e-4:
        return "over 99.99"
    figures = 4 if missing < 0.01 else 3 if missing < 0.1 else 2
    return significant(100.0 * share, figures)


def answer_line(found: Absorber) -> str:
    """Return the one line that answers: taken up, slips past."""
    return f"{share_band(found.efficiency)} of the ozone taken up; slip {slip_band(found.slip)}"


def slip_band(value: Number) -> str:
    """Return what slips past with its interval; next to nothing is told as less than a limit."""
    assert isinstance(value, Estimate)
    middle, low, high = (_mg(end) for end in (value.value, *value.interval))
    if low == high:
        return f"{middle} mg/min"
    band_of = f"up to {high}" if low == _mg(0.0) else f"{low} to {high}"
    return f"{middle} ({band_of}) mg/min"


def _mg(rate: float) -> str:
    shown = number(rate, Kind.MASS_RATE, "mg/min")
    return significant(shown, 2) if shown >= FAINT else f"under {FAINT}"


def answer_parts(found: Absorber) -> Answer:
    """Return the answer of the page."""
    assert isinstance(found.efficiency, Estimate) and isinstance(found.output, Estimate)  # noqa: PT018
    low, high = (_share(end) for end in found.efficiency.interval)
    slip = f"slip {slip_band(found.slip)}"
    sent = quantity(found.output.value, Kind.MASS_RATE, "mg/min", figures=3)
    by = f"corrected by the {found.measured_by}" if found.measured_by else "by the model alone"
    return Answer(
        _share(found.efficiency.value), "%", slip, f"Of {sent} sent in, {by}.",
        f"95 %: {low} to {high} %.",
    )  # fmt: skip


def details(found: Absorber) -> Iterator[tuple[str, str]]:
    """Yield the figures behind the answer, as words and value."""
    assert isinstance(found.output, Estimate) and isinstance(found.flow, Estimate)  # noqa: PT018
    assert isinstance(found.concentration, Estimate)
    yield "ozone sent in", quantity(found.output.value, Kind.MASS_RATE, "mg/min", found.output.u)
    yield "flow", quantity(found.flow.value, Kind.NORMAL_FLOW, "NL/min", figures=3)
    yield (
        "in the gas",
        quantity(found.concentration.value, Kind.NORMAL_CONCENTRATION, "g/Nm3", figures=3),
    )
    if found.measured_by:
        yield "by the model alone", share_band(found.modelled)
        assert isinstance(found.correction, Estimate)
        yield "transfer over the model's", with_u(found.correction.value, found.correction.u)
    if isinstance(found.guard_share, Estimate):
        low, high = (percent(end) for end in found.guard_share.interval)
        yield "guard share", f"{percent(found.guard_share.value)} ({low} to {high})"


def bottle_details(row: BottleRow) -> Iterator[tuple[str, str]]:
    """Yield the figures of one bottle."""
    yield "holds", f"{row.liquid} with {HOLDS[row.holds]}"
    yield "takes up", f"{share_band(row.efficiency)} of what comes in"
    yield "off-gas", f"{band(row.off_gas, Kind.NORMAL_CONCENTRATION, 'g/Nm3')} g/Nm³"
    yield "dissolved", dissolved_text(row)
    yield "bubble", f"{band(row.bubble, Kind.LENGTH, 'mm')} mm"
    assert isinstance(row.contact, Estimate) and isinstance(row.hold_up, Estimate)  # noqa: PT018
    yield "in the liquid", f"{quantity(row.contact.value, Kind.TIME, 's', figures=2)}"
    yield "gas in the liquid", percent(row.hold_up.value)
    yield "liquid film", f"{small(row.kl, Kind.VELOCITY, 'm/s')} m/s; other laws: {_others(row)}"
    assert isinstance(row.hatta, Estimate) and isinstance(row.enhancement, Estimate)  # noqa: PT018
    yield (
        "Hatta, enhancement",
        f"{significant(row.hatta.value, 2)}, {significant(row.enhancement.value, 2)}",
    )


def dissolved_text(row: BottleRow) -> str:
    """Return the ozone dissolved, in a power of ten where it is next to nothing."""
    assert isinstance(row.dissolved, Estimate)
    value = number(row.dissolved.value, Kind.MASS_CONCENTRATION, "mg/L")
    if value < 1e-3:
        return f"{power_of_ten(value)} mg/L"
    until = "up to " if row.fills is not None else ""
    return f"{until}{band(row.dissolved, Kind.MASS_CONCENTRATION, 'mg/L')} mg/L"


def small(value: Number, kind: Kind, unit: str) -> str:
    """Return a figure of many decades: ``4.3 × 10⁻⁴``."""
    assert isinstance(value, Estimate)
    return power_of_ten(value.value / size(kind, unit))


def _others(row: BottleRow) -> str:
    laws = [law for law in (row.kl_large, row.kl_small, row.kl_power) if law is not None]
    return f"{power_of_ten(min(laws))} to {power_of_ten(max(laws))}"


def what_if_text(row: WhatIf) -> str:
    """Return a change and what it brings."""
    assert row.efficiency is not None and row.gain is not None  # noqa: PT018
    sign = "+" if row.gain >= 0.0 else "\u2212"
    points = significant(100.0 * abs(row.gain), 2)
    slip = _mg(row.slip or 0.0)
    return (
        f"{CHANGES[row.change]}: {_share(row.efficiency)} % ({sign}{points} points), "
        f"slip {slip} mg/min"
    )


def changes_shown(found: Absorber) -> list[WhatIf]:
    """Return the changes that are worth telling."""
    return [row for row in found.what_if if row.gain is not None and abs(row.gain) >= ALIKE]


def absorber_text(found: Absorber) -> str:
    """Return the answer for a terminal."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Absorber) -> Iterator[str]:
    yield from wrapped(answer_line(found))
    yield from (f"  {words:<26} {value}" for words, value in details(found))
    for row in found.bottles:
        yield from ("", row.name)
        for words, value in bottle_details(row):
            yield from wrapped(value, f"  {words:<26} ")
    yield from ("", TABLE)
    cells = [heads(found), *course_lines(found)]
    widths = [max(len(row[place]) for row in cells) for place in range(len(cells[0]))]
    for row_of in cells:
        padded = (f"{cell:>{width}}" for cell, width in zip(row_of, widths, strict=True))
        yield f"  {'   '.join(padded)}"
    told = changes_shown(found)
    if told:
        yield from ("", "What would change it")
    for change in told:
        yield from wrapped(what_if_text(change), "  ", "    ")
    yield from ("", "Working (first bottle)")
    for note in found.working:
        yield from wrapped(sentence(note), "  ", "    ")
    yield from ("", "Notes")
    for note in found.notes:
        yield from wrapped(sentence(note), "  ", "    ")
    if found.unknowns:
        yield from ("", *wrapped(f"Not stated: {', '.join(found.unknowns)}."))
    yield from wrapped(f"Methods: {'; '.join(found.methods)}.")
    yield from wrapped(f"Sources: {', '.join(found.sources)} (docs/sources.md).")
