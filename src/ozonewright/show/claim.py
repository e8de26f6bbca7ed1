"""A label beside a measurement, as text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.claim import Band, Claim
from ozonewright.show.numbers import percent, quantity, span, unit_text
from ozonewright.show.pages import Answer
from ozonewright.show.wrap import foot, noted, numbered, unmarked, wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

FROM_MEMORY = {"memory": "from memory", "common practice": "common practice"}


def answer_line(found: Claim) -> str:
    """Return the one line that answers."""
    assert found.rate is not None
    assert found.share is not None
    label = _label(found)
    rate = quantity(found.rate.value, Kind.MASS_RATE, "g/h", found.rate.u)
    share = percent(found.share.value)
    return f"{found.verdict[:1].upper()}{found.verdict[1:]}: {rate}, {share} of {label}"


def _label(found: Claim) -> str:
    """Return the label as it was typed, near enough."""
    return f"{number(found.label or 0.0, Kind.MASS_RATE, 'g/h'):.6g} g/h"


def page_answer(found: Claim) -> Answer:
    """Return the answer as a page shows it."""
    assert found.rate is not None
    assert found.share is not None
    rate = quantity(found.rate.value, Kind.MASS_RATE, "g/h", found.rate.u)
    of = f"{found.setting}: " if found.setting else ""
    return Answer(
        percent(found.share.value),
        f"of {_label(found)}",
        found.verdict,
        f"{of}{rate} measured",
        sureness_line(found),
    )


def sureness_line(found: Claim) -> str:
    """Return the interval of the share, and what it rests on."""
    assert found.share is not None
    low, high = (100.0 * end for end in found.share.interval)
    between = span(low, high, Kind.DIMENSIONLESS, "", 100.0 * found.share.u)
    runs = "one run, readings only" if found.runs == 1 else f"{found.runs} runs"
    return f"95 %: {between} % of the label ({runs})."


def implied_lines(found: Claim) -> Iterator[tuple[str, str, str]]:
    """Yield what, of the label, and as measured, where it can be known."""
    limit = quantity(found.yield_limit or 0.0, Kind.YIELD, "g/kWh", figures=3)
    rows = (
        ("yield", found.label_yield, found.energy_yield, Kind.YIELD, "g/kWh"),
        ("mass fraction", found.label_fraction, found.mass_fraction, Kind.MASS_FRACTION, "wt%"),
        ("share of the oxygen", found.oxygen_share, None, Kind.SHARE, "%"),
    )
    for words, label, measured, kind, unit in rows:
        if label is not None:
            yield words, _shown(label, kind, unit), _shown(measured, kind, unit)
    yield "most that energy allows", limit, ""


def _shown(value: Estimate | None, kind: Kind, unit: str) -> str:
    return "" if value is None else quantity(value.value, kind, unit, value.u)


def band_text(band: Band) -> str:
    """Return a published band: ``67 to 93 g/kWh``."""
    low, high = f"{band.low:.4g}", f"{band.high:.4g}"
    return f"{low if low == high else f'{low} to {high}'} {unit_text(band.unit)}"


def places_text(band: Band) -> str:
    """Return where label and measurement lie against a band."""
    parts = []
    if band.label:
        parts.append(f"label {band.label}")
    if band.measured:
        parts.append(f"measured {band.measured}")
    return ", ".join(parts)


def evidence_text(band: Band) -> str:
    """Return where a band comes from."""
    memory = FROM_MEMORY.get(band.evidence, "")
    return ", ".join(part for part in (band.source, memory) if part) or "no source"


def claim_text(found: Claim) -> str:
    """Return the whole answer: answer first, then what to do next, then the working."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Claim) -> Iterator[str]:
    name = ", ".join(dict.fromkeys(part for part in (found.run, found.setting) if part))
    if found.runs > 1:
        name = found.setting or name
    yield from wrapped(f"{name}: {answer_line(found)}" if name else answer_line(found), "")
    yield sureness_line(found)
    if found.next:
        yield from ("", "Next")
        yield from numbered(found.next[:3])
    yield from ("", "What the label would mean here")
    for words, label, measured in implied_lines(found):
        beside = f"  (measured {measured})" if measured else ""
        yield f"  {words:<24} {label}{beside}"
    yield from ("", "Published figures")
    for band in found.bands:
        places = f": {places_text(band)}" if places_text(band) else ""
        yield from wrapped(
            f"{band.name}, {band_text(band)} ({evidence_text(band)}){places}", "  ", "    "
        )
    yield from ("", "Working")
    yield from unmarked(found.working)
    yield from noted(found.notes)
    yield from foot(found.unknowns, found.sources)
