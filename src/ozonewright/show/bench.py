"""The count as the bench page shows it: every text ready, and the numbers that run on in it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from math import floor, log10

from ozonewright.questions.count import Count
from ozonewright.questions.count.result import EventRow, MarkRow
from ozonewright.show.clock import day_time, digits, minutes_seconds, time_of_day
from ozonewright.show.numbers import quantity
from ozonewright.show.pages import Remark, remarks
from ozonewright.show.signs import sign_lines
from ozonewright.units import Kind, number

GATE = {
    "": ("\u25cc", "not asked"),
    "go": ("\u25a1", "go"),
    "fix": ("\u25ea", "fix"),
    "stop": ("\u25a0", "stop"),
}
"""The square before the gate's word: outline, half, full; dotted while nobody asked."""
WORDS = {
    "gas on": "Gas on",
    "gas off": "Gas off",
    "discharge on": "Discharge on",
    "discharge off": "Discharge off",
    "divert": "Diverted to the tail",
    "into bottle": "Into the bottle",
    "stop": "Stop",
}
AHEAD = 1.15
"""How far the bar reaches beyond the last mark."""
WHOLE_FROM = 10.0
"""Minutes from which a mark is told in whole ones, rounded down: too early is safe."""
MOST_DECIMALS = 3
UNSHOWN = ("count-press-doubt",)
"""Notes that the page leaves to the terminal: they hold for every count alike."""


@dataclass(frozen=True, slots=True)
class MarkView:
    """A mark on the bar."""

    name: str
    at: float
    """Seconds of on-time."""
    minutes: str


@dataclass(frozen=True, slots=True)
class Amount:
    """What was delivered: the page counts on from `value` by `rate`."""

    value: float = 0.0
    """mmol"""
    u: float = 0.0
    decimals: int = 0
    pace: float = 0.0
    """mmol in a minute of on-time."""
    u_pace: float = 0.0
    """By how much u grows in a minute at the most: the two may be one and the same doubt."""
    text: str = ""
    after: str = ""
    """What stands behind the number: ``of 10.0 mmol taken up``."""


@dataclass(frozen=True, slots=True)
class PressView:
    """The last press."""

    id: str = ""
    text: str = ""


@dataclass(frozen=True, slots=True)
class BenchView:
    """All that changes on the bench page."""

    of: str
    of_kind: str
    on_time: float
    digits: str
    counting: bool
    gas: bool
    discharge: bool
    diverted: bool
    stopped: bool
    amount: Amount
    marks: tuple[MarkView, ...]
    reach: float
    """Seconds of on-time that the bar holds."""
    marks_text: str
    plan: str
    next_name: str
    next_left: float
    """Seconds to what comes next."""
    next_runs: str
    """What these seconds are of: on-time, gas, or nothing."""
    next_text: str
    past: bool
    """Counting on beyond the last mark."""
    last: PressView
    stored: str
    gate_mark: str
    gate: str
    gate_word: str
    signs: tuple[str, ...]
    """What the end point should show, by the simulated run."""
    titres: tuple[str, ...]
    notes: tuple[Remark, ...]


def bench_view(
    found: Count,
    *,
    last: str = "",
    stored: datetime | None = None,
    gate: tuple[str, datetime] | None = None,
    titres: tuple[tuple[str, str], ...] = (),
) -> BenchView:
    """Return what the page shows of a count.

    Parameters
    ----------
    last : str
        Id of the event that came in last, whose press can be taken back.
    stored : datetime
        When the notebook took the last entry of this run or reaction in.
    gate : tuple
        The gate's word, and when it was given; None while the gate was not asked.
    titres : tuple
        Word and value of each titre logged.
    """
    assert found.on_time is not None
    word, when = gate or ("", None)
    event = next((row for row in found.events if row.id == last), None)
    name, left, runs, text = _coming(found)
    return BenchView(
        of=found.of,
        of_kind=found.of_kind,
        on_time=found.on_time.value,
        digits=digits(found.on_time.value),
        counting=found.counting,
        gas=found.gas == "on",
        discharge=found.discharge == "on",
        diverted=found.stream == "diverted",
        stopped=found.stopped,
        amount=_amount(found),
        marks=tuple(map(_mark, found.marks)),
        reach=_reach(found),
        marks_text=", ".join(_told(_mark(one)) for one in found.marks),
        plan="" if found.planned is None else f"of {minutes_seconds(found.planned)} planned",
        next_name=name,
        next_left=left,
        next_runs=runs,
        next_text=text,
        past=found.counting and bool(found.marks) and all(one.passed for one in found.marks),
        last=_last(event),
        stored=time_of_day(stored) if stored else "",
        gate_mark=GATE[word][0],
        gate=f"{GATE[word][1]}, {day_time(when)}" if when else GATE[word][1],
        gate_word=word,
        signs=tuple(sign_lines(found.signs)),
        titres=tuple(f"{what[:1].upper()}{what[1:]}: {value}" for what, value in titres),
        notes=remarks(note for note in found.notes if note.code not in UNSHOWN),
    )


def _mark(row: MarkRow) -> MarkView:
    at = row.on_time or 0.0
    minutes = number(at, Kind.TIME, "min")
    whole = minutes >= WHOLE_FROM or minutes == round(minutes)
    return MarkView(row.name, at, f"{floor(minutes)} min" if whole else digits(at))


def _told(mark: MarkView) -> str:
    return (
        f"{mark.name} {mark.minutes}"
        if mark.name.endswith(" by")
        else (f"{mark.name} at {mark.minutes}")
    )


def _reach(found: Count) -> float:
    ends = [mark.on_time or 0.0 for mark in found.marks]
    run = found.on_time.value if found.on_time else 0.0
    return AHEAD * max([*ends, run, found.planned or 0.0])


def _amount(found: Count) -> Amount:
    amount = found.taken_up or found.dosed
    if amount is None or found.pace is None:
        return Amount()
    value, u = (number(each, Kind.AMOUNT, "mmol") for each in (amount.value, amount.u))
    decimals = min(max(1 - floor(log10(u)), 0), MOST_DECIMALS) if u > 0.0 else 2
    of = (
        f"of {quantity(found.wanted.value, Kind.AMOUNT, 'mmol', figures=3)}" if found.wanted else ""
    )
    return Amount(
        value=value,
        u=u,
        decimals=decimals,
        pace=number(found.pace.value, Kind.AMOUNT_RATE, "mmol/min"),
        u_pace=number(found.pace.u, Kind.AMOUNT_RATE, "mmol/min"),
        text=f"{value:.{decimals}f} ± {u:.{decimals}f}",
        after=f"{of or 'mmol'} {'taken up' if found.taken_up else 'sent in'}",
    )


def _coming(found: Count) -> tuple[str, float, str, str]:
    """Return what comes next, in how many seconds, of what, and as text."""
    if found.gas == "off" and found.discharge == "off":
        return "", 0.0, "", "all off"
    if found.run_on_left is not None and found.gas == "on":
        left = found.run_on_left
        return "gas off", left, "gas", f"gas off, in {minutes_seconds(left)}"
    codes = {note.code for note in found.next}
    if "count-gas-off" in codes:
        return "gas off", 0.0, "", "gas may go off"
    if "count-log-gas" in codes:
        return "gas", 0.0, "", "press Gas, or discharge off"
    for mark in found.marks:
        if not mark.passed:
            left = mark.left or 0.0
            told = f"{mark.name}, in {minutes_seconds(left)}"
            return mark.name, left, "on-time", told if found.counting else f"{told} of on-time"
    if found.marks and found.counting:
        return found.marks[-1].name, 0.0, "", "stop now"
    begin = {"count-begin": "gas on", "count-discharge": "discharge on"}
    return "", 0.0, "", next((told for code, told in begin.items() if code in codes), "no mark")


def _last(event: EventRow | None) -> PressView:
    if event is None or event.when is None:
        return PressView()
    return PressView(event.id, f"{WORDS[event.what]}, {time_of_day(event.when)}")
