"""The count as text."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ozonewright.questions.count import Count
from ozonewright.show.clock import day_time, minutes_seconds, time_of_day
from ozonewright.show.numbers import quantity
from ozonewright.show.signs import sign_lines
from ozonewright.show.wrap import noted, numbered, wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


def answer_line(found: Count) -> str:
    """Return the one line that answers."""
    assert found.on_time is not None
    told = f"{found.of}: {minutes_seconds(found.on_time.value)} of on-time"
    if amount := amount_text(found):
        told += f", {amount}"
    return told


def amount_text(found: Count) -> str:
    """Return what was delivered: ``6.2 ± 0.3 of 10.0 mmol taken up``; nothing if unknown."""
    amount = found.taken_up or found.dosed
    if amount is None:
        return ""
    number, _, unit = _mmol(amount).rpartition(" ")
    of = f" of {_mmol(found.wanted, False)}" if found.wanted and found.taken_up else f" {unit}"
    return f"{number}{of} {'taken up' if found.taken_up else 'sent in'}"


def remaining_text(found: Count) -> str:
    """Return what remains, or nothing where that is not known."""
    if found.remaining is None:
        return ""
    return f"{_mmol(found.remaining)} remain"


def plan_text(found: Count) -> str:
    """Return actual against planned."""
    if found.planned is None or found.over is None:
        return ""
    if found.over > 0.0:
        return f"{minutes_seconds(found.over)} beyond the {minutes_seconds(found.planned)} planned"
    return f"{minutes_seconds(-found.over)} left of {minutes_seconds(found.planned)} planned"


def _mmol(amount: Estimate, spread: bool = True) -> str:
    return quantity(amount.value, Kind.AMOUNT, "mmol", amount.u if spread else None, figures=3)


def state_text(found: Count) -> str:
    """Return what is switched on."""
    parts = [f"gas {found.gas}", f"discharge {found.discharge}"]
    parts.append("diverted" if found.stream == "diverted" else "into the bottle")
    return ", ".join(parts) + ("; stopped" if found.stopped else "")


def count_text(found: Count) -> str:
    """Return the answer, the next thing to do, marks, events and notes."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Count) -> Iterator[str]:
    yield answer_line(found)
    for text in (plan_text(found), remaining_text(found)):
        if text:
            yield text
    yield state_text(found)
    if found.next:
        yield from ("", "Next")
        yield from numbered(found.next[:3])
    if found.marks:
        yield from ("", "Marks")
        for mark in found.marks:
            told = "passed" if mark.passed else f"in {minutes_seconds(mark.left or 0.0)}"
            yield f"  {mark.name:<20} at {minutes_seconds(mark.on_time or 0.0):<12} {told}"
    if found.signs:
        yield from ("", "Signs to expect, by the simulated run")
        for line in sign_lines(found.signs):
            yield from wrapped(line, "  ", "    ")
    yield from ("", "Events")
    for row in found.events:
        assert row.when is not None
        on_time = minutes_seconds(row.on_time or 0.0)
        yield f"  {day_time(row.when):<16} {row.what:<14} {on_time:>12}  {row.id[:4]}"
    if not found.events:
        yield "  none yet"
    yield from noted(found.notes)


def stored_text(what: str, of: str | None, when: datetime, as_last: bool) -> str:
    """Return the confirmation of a press."""
    whose = f", of {of}" if of else ""
    hint = " (as the last event; --of names another)" if as_last else ""
    return f"stored at {time_of_day(when)}: {what}{whose}{hint}"


def taken_back_text(what: str, when: datetime) -> str:
    """Return the confirmation of an undo."""
    return f"taken back: {what} of {day_time(when)}; it stays in the notebook, struck out"
