"""The answer of the output question as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.questions.output import Output
from ozonewright.results import Quantity, declared
from ozonewright.show.budget import budget_text
from ozonewright.show.fields import told
from ozonewright.show.numbers import span
from ozonewright.show.wrap import foot, marked, noted, numbered, unmarked, wrapped
from ozonewright.uncertain import Estimate

BUDGET_LINES = 6


def answer_line(result: Output) -> str:
    """Return the one line that answers: output with uncertainty, in two units."""
    if result.discharge == "off":
        found = told(result, "ozone", with_u=True)
        return f"field blank: reads as {found} of ozone" if found else "field blank: not determined"
    rate = told(result, "rate", with_u=True)
    if rate is None and (other := _without_rate(result)):
        return other
    if rate is None:
        ozone = told(result, "ozone", with_u=True)
        return (
            f"{ozone} of ozone; output not determined (no on-time)" if ozone else "not determined"
        )
    least = ", u at least" if result.at_least else ""
    return f"{rate} ({told(result, 'rate_amount')}{least})"


def _without_rate(result: Output) -> str | None:
    """Return what an assay tells that sees the gas or the liquid, not what was collected."""
    if dissolved := told(result, "dissolved", with_u=True):
        return f"{dissolved} of ozone dissolved; output not determined"
    if result.ozone is None and (found := told(result, "concentration", with_u=True)):
        return f"{found} of dry ozonised gas; output not determined (no flow)"
    return None


def basis_line(result: Output) -> str:
    """Return what the answer is of, and the other ways to say it."""
    parts = []
    concentration, flow = (told(result, name) for name in ("concentration", "ozonised_flow"))
    if concentration and flow:
        parts.append(f"{concentration} of dry ozonised gas ({flow})")
    fractions = [told(result, name, figures=2) for name in ("mass_fraction", "mole_fraction")]
    if any(fractions):
        parts.append(", ".join(f for f in fractions if f))
    if result.energy_yield is not None:
        parts.append(f"{told(result, 'energy_yield')} at the {result.power_at}")
    if result.yield_discharge is not None:
        parts.append(f"{told(result, 'yield_discharge')} at the discharge")
    return "; ".join(parts)


def output_text(result: Output) -> str:
    """Return the whole answer: answer first, then what to do next, then the working."""
    return "\n".join(_lines(result)) + "\n"


def _lines(result: Output) -> Iterator[str]:
    name = ", ".join(part for part in (result.label, result.setting) if part)
    yield f"{name}: {answer_line(result)}" if name else answer_line(result)
    if basis := basis_line(result):
        yield from wrapped(basis, "")
    if isinstance(result.rate, Estimate) and result.discharge == "on":
        yield _sureness(result, result.rate)
    yield from _wrong(result)
    yield from _next(result)
    if result.working:
        yield from ("", "Working")
        yield from unmarked(result.working)
    yield from budget_text(result.budget, "the output", BUDGET_LINES)
    yield from _notes(result)
    yield from foot(result.unknowns, result.sources)


def _sureness(result: Output, rate: Estimate) -> str:
    low, high = rate.interval
    declaration = dict(declared(result))["rate"]
    assert isinstance(declaration, Quantity)
    between = span(low, high, declaration.kind, declaration.unit, rate.u)
    doubt = f"; largest doubt: {result.budget[0].input}" if result.budget else ""
    return f"95 %: {between} ({result.interval_method}). Readings only{doubt}."


def _next(result: Output) -> Iterator[str]:
    if result.next:
        yield from ("", "Next")
        yield from numbered(result.next[:3])


def _notes(result: Output) -> Iterator[str]:
    others = [note for note in result.notes if note.level != "wrong"]
    yield from noted(others)


def _wrong(result: Output) -> Iterator[str]:
    yield from marked(note for note in result.notes if note.level == "wrong")


def outputs_text(results: Sequence[Output]) -> str:
    """Return several runs: a table first, then each."""
    if len(results) == 1:
        return output_text(results[0])
    rows = [_ROW.format("run", "on-time", "output", "g/Nm³", "guard").rstrip()]
    rows += [_row(result, place) for place, result in enumerate(results, start=1)]
    return "\n".join(rows) + "\n\n" + "\n".join(output_text(result) for result in results)


_ROW = "{:<12} {:>8}  {:<26} {:>7} {:>7}"


def _row(result: Output, place: int) -> str:
    if result.discharge == "off":
        found = f"blank, {told(result, 'ozone', with_u=True)}"
    else:
        found = told(result, "rate", with_u=True) or "not determined"
    concentration = (told(result, "concentration") or "").partition(" ")[0]
    guard = told(result, "guard_share", figures=2) or ""
    name = (result.label or str(place))[:12]
    on_time = told(result, "on_time") or ""
    return _ROW.format(name, on_time, found, concentration, guard).rstrip()
